import { describe, expect, it } from 'vitest';
import type { Value } from '../../shared/value.ts';
import {
  afterTreatmentCount,
  daysAfterTreatment,
  isStillHigh,
  isTreatedOn,
} from '../../src/treating/after-treatment.ts';
import { seasonLine, seasonRanking } from '../../src/treating/season-line.ts';
import { animal, emptyHerd, product, treated } from './herd.ts';

const days = ['2026-05-01', '2026-06-01', '2026-07-01', '2026-08-01'];
let notebook = emptyHerd(days);
for (const tag of ['A', 'B', 'C']) notebook = animal(notebook, tag);
notebook = animal(notebook, 'D', { arrived: '2026-07-15' });
notebook = product(notebook, 'short', { afterDays: 14 });
notebook = product(notebook, 'long', { afterDays: 60 });
notebook = treated(notebook, 'A', 'short', '2026-05-20');
notebook = treated(notebook, 'B', 'long', '2026-05-20');
notebook = treated(notebook, 'B', 'short', '2026-05-25');

describe('daysAfterTreatment(notebook, animal, date)', () => {
  it('counts days while the product’s own number holds, its last day included', () => {
    expect(daysAfterTreatment(notebook, 'A', '2026-06-01')).toBe(12);
    expect(daysAfterTreatment(notebook, 'A', '2026-06-03')).toBe(14);
    expect(daysAfterTreatment(notebook, 'A', '2026-06-04')).toBeUndefined();
    expect(daysAfterTreatment(notebook, 'C', '2026-06-01')).toBeUndefined();
  });

  it('takes the sample of the treatment day as before it, and yet the animal as treated', () => {
    expect(daysAfterTreatment(notebook, 'A', '2026-05-20')).toBeUndefined();
    expect(isTreatedOn(notebook, 'A', '2026-05-20')).toBe(true);
    expect(isTreatedOn(notebook, 'A', '2026-05-19')).toBe(false);
  });

  it('a longer product goes on counting when a later, shorter one has run out', () => {
    expect(daysAfterTreatment(notebook, 'B', '2026-06-01')).toBe(7);
    expect(daysAfterTreatment(notebook, 'B', '2026-06-10')).toBe(21);
    expect(daysAfterTreatment(notebook, 'B', '2026-07-20')).toBeUndefined();
  });
});

describe('afterTreatmentCount(notebook, day, animals)', () => {
  it('says how many of those counted, and within how many days', () => {
    expect(afterTreatmentCount(notebook, '2026-06-01', ['A', 'C'])).toEqual({
      treated: 1,
      of: 2,
      sentence: '1 of 2 treated within 14 days',
    });
    expect(afterTreatmentCount(notebook, '2026-06-01', ['A', 'B', 'C']).sentence).toBe(
      '2 of 3 treated within 14 to 60 days, by product',
    );
    expect(afterTreatmentCount(notebook, '2026-08-01', ['A', 'B', 'C'])).toMatchObject({
      treated: 0,
      sentence: '',
    });
  });
});

describe('isStillHigh(notebook, day, animal, epg)', () => {
  it('is at the limit or more, soon after treatment', () => {
    expect(isStillHigh(notebook, '2026-06-01', 'A', 500)).toBe(true);
    expect(isStillHigh(notebook, '2026-06-01', 'A', 499)).toBe(false);
    expect(isStillHigh(notebook, '2026-06-01', 'C', 5000)).toBe(false);
    expect(isStillHigh(notebook, '2026-06-01', 'A', null)).toBe(false);
  });
});

describe('seasonLine(notebook, animal, epgs)', () => {
  const day = (values: Record<string, Value>): ReadonlyMap<string, Value> =>
    new Map(Object.entries(values));
  const epgs = new Map([
    [days[0]!, day({ A: 600, B: 100, C: null })],
    [days[1]!, day({ A: 0, B: 50, C: { fault: 'x', sentence: 'y' } })],
    [days[2]!, day({ A: 200, B: 900, C: null })],
    [days[3]!, day({ A: 400, B: 300, D: 50 })],
  ]);

  it('leaves counts soon after a treatment out of the line and shows them apart', () => {
    const line = seasonLine(notebook, 'A', epgs);
    expect(line.line.map(({ epg }) => epg)).toEqual([600, 200, 400]);
    expect(line.apart).toEqual([
      { day: '2026-06-01', date: '2026-06-01', epg: 0, daysAfter: 12, isStillHigh: false },
    ]);
    expect(line.mean).toBe(400);
    expect(line.sentence).toBe('mean of 3 of 4 days, 1 more soon after treatment');
    expect(
      seasonLine(notebook, 'B', epgs).apart.map(({ epg, isStillHigh: high }) => [epg, high]),
    ).toEqual([
      [50, false],
      [900, true],
    ]);
  });

  it('counts only the days on which the animal was here', () => {
    expect(seasonLine(notebook, 'D', epgs)).toMatchObject({
      daysPresent: 1,
      mean: 50,
      sentence: 'mean of 1 of 1 day',
    });
    expect(seasonLine(notebook, 'C', epgs)).toMatchObject({
      mean: null,
      sentence: 'no ordinary count on 4 days',
    });
  });

  it('ranks by the ordinary counts, and never an animal that has none', () => {
    expect(seasonRanking(notebook, epgs).map(({ tag, mean }) => [tag, mean])).toEqual([
      ['A', 400],
      ['B', 200],
      ['D', 50],
    ]);
  });
});
