import { describe, expect, it } from 'vitest';
import { clearAfter, clearText, readClear } from '../../src/treating/clear-date.ts';
import { clearance, leavingWarnings, notClear } from '../../src/treating/clearance.ts';
import { animal, emptyHerd, product, refusal, treated } from './herd.ts';

describe('clearAfter(withdrawal, date)', () => {
  it('1 June and 10 days: 12 June; a typed 0: the day itself', () => {
    expect(clearAfter({ kind: 'days', days: 10 }, '2026-06-01')).toEqual({
      kind: 'date',
      date: '2026-06-12',
    });
    expect(clearAfter({ kind: 'days', days: 0 }, '2026-06-01')).toEqual({
      kind: 'date',
      date: '2026-06-01',
    });
  });

  // By hand: treated at the last minute of 1 June, 72 h end at the last minute of 4 June, 73 h on 5 June.
  it.each([
    [0, '2026-06-01'],
    [1, '2026-06-03'],
    [24, '2026-06-03'],
    [72, '2026-06-05'],
    [73, '2026-06-06'],
  ])('%d hours are clear on %s, whatever the time of day', (hours, date) => {
    expect(clearAfter({ kind: 'hours', hours }, '2026-06-01')).toEqual({ kind: 'date', date });
  });

  it('not permitted, not stated and nothing typed give no date', () => {
    expect(clearAfter({ kind: 'not permitted' }, '2026-06-01')).toEqual({ kind: 'not permitted' });
    expect(clearAfter({ kind: 'not stated' }, '2026-06-01')).toEqual({ kind: 'ask' });
    expect(clearAfter(undefined, '2026-06-01')).toEqual({ kind: 'ask' });
  });

  it('refuses a negative withdrawal and a day that is none', () => {
    expect(refusal(clearAfter({ kind: 'days', days: -1 }, '2026-06-01'))).toContain(
      'cannot be -1 days',
    );
    expect(refusal(clearAfter({ kind: 'days', days: 1 }, '2026-06-31'))).toContain(
      'not a day of the calendar',
    );
  });

  it('reads back what it writes, and takes anything else for "ask"', () => {
    for (const clear of [
      { kind: 'date', date: '2026-06-12' },
      { kind: 'not permitted' },
      { kind: 'ask' },
    ] as const)
      expect(readClear(clearText(clear))).toEqual(clear);
    expect(readClear(undefined)).toEqual({ kind: 'ask' });
    expect(readClear('soon')).toEqual({ kind: 'ask' });
  });
});

describe('notClear(notebook, animal, date)', () => {
  const base = product(product(animal(emptyHerd(['2026-05-03']), 'A'), 'p', { name: 'One' }), 'q', {
    name: 'Two',
  });
  const given = (productId: string, date: string, meatClear: string, milkClear = '2026-06-02') =>
    ({ productId, date, meatClear, milkClear }) as const;
  const log = (...lines: ReturnType<typeof given>[]) =>
    lines.reduce(
      (notebook, { productId, date, ...clears }) => treated(notebook, 'A', productId, date, clears),
      base,
    );

  it('takes the latest date over all products, from the last dose', () => {
    const notebook = log(
      given('p', '2026-06-01', '2026-07-20'),
      given('q', '2026-06-10', '2026-06-25'),
      given('p', '2026-06-05', '2026-07-24'),
    );
    expect(notClear(notebook, 'A', '2026-06-20')).toEqual({
      meat: 'Meat not clear until 24 July 2026 (One).',
      milk: null,
      both: null,
    });
    expect(notClear(notebook, 'A', '2026-07-23').meat).not.toBeNull();
    expect(notClear(notebook, 'A', '2026-07-24').meat).toBeNull();
    expect(clearance(notebook, 'A', '2026-07-24', 'meat')).toEqual({
      state: 'clear',
      since: '2026-07-24',
    });
  });

  it('knows nothing yet of a treatment still to come', () => {
    expect(
      notClear(log(given('p', '2026-06-01', '2026-07-20')), 'A', '2026-05-31').meat,
    ).toBeNull();
  });

  it('one treatment without a date leaves the animal without one, however old it is', () => {
    const notebook = log(
      given('p', '2024-01-01', 'no clear date, ask your vet'),
      given('q', '2026-06-01', '2026-06-12'),
    );
    expect(notClear(notebook, 'A', '2026-08-01').meat).toBe(
      'Meat: no clear date for One, ask your vet. Other products are clear from 12 June 2026 at the earliest.',
    );
  });

  it('not permitted stays not permitted', () => {
    const notebook = log(given('p', '2026-06-01', '2026-06-12', 'not permitted'));
    expect(notClear(notebook, 'A', '2027-06-01').milk).toBe(
      'Milk not permitted for people after One: ask your vet.',
    );
  });

  it('warns before an animal leaves, and not where it is clear', () => {
    const notebook = animal(log(given('p', '2026-06-01', '2026-06-12')), 'B');
    expect(leavingWarnings(notebook, ['A', 'B'], '2026-06-11')).toEqual([
      'A would leave on 11 June 2026: Meat not clear until 12 June 2026 (One). Tell the buyer in writing, or wait.',
    ]);
    expect(leavingWarnings(notebook, ['A', 'B'], '2026-06-12')).toEqual([]);
  });
});
