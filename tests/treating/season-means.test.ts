import { describe, expect, it } from 'vitest';
import type { Value } from '../../shared/value.ts';
import { seasonMeans } from '../../src/treating/season-means.ts';
import { animal, emptyHerd, product, treated, withSets } from './herd.ts';

const days = ['2026-05-01', '2026-06-01'];
let notebook = emptyHerd(days);
for (const tag of ['A', 'B', 'C', 'D']) notebook = animal(notebook, tag);
notebook = animal(notebook, 'E', { arrived: '2026-05-20' });
notebook = product(notebook, 'short', { afterDays: 14 });
notebook = treated(notebook, 'A', 'short', '2026-05-20');
notebook = withSets(notebook, [
  ...['A', 'B'].map((id) => ({ path: ['groups', id, days[0]!] as const, value: 'ewes' })),
  ...['C', 'D'].map((id) => ({ path: ['groups', id, days[0]!] as const, value: 'lambs' })),
  { path: ['groups', 'D', '2026-05-25'] as const, value: 'ewes' },
  {
    path: ['readings', days[1]!, 'C', 'c-chamber1'] as const,
    value: { kind: 'too-many', text: 'TNTC' },
  },
]);
const day = (values: Record<string, Value>): ReadonlyMap<string, Value> =>
  new Map(Object.entries(values));
const epgs = new Map([
  [days[0]!, day({ A: 600, B: 200, C: 100, D: null })],
  [days[1]!, day({ A: 0, B: 300, C: null, D: 500, E: { fault: 'x', sentence: 'y' } })],
]);

describe('seasonMeans(notebook, epgs)', () => {
  const season = seasonMeans(notebook, epgs);
  const of = (group: string | null) => season.find((line) => line.group === group)?.means ?? [];

  it('has a line for each group, and all animals last', () => {
    expect(season.map(({ group }) => group)).toEqual(['ewes', 'lambs', null]);
  });

  it('takes the arithmetic mean of ordinary counts, those soon after a treatment apart', () => {
    expect(of('ewes').map(({ mean, counted, present }) => [mean, counted, present])).toEqual([
      [400, 2, 2],
      [400, 2, 3],
    ]);
    expect(of('ewes')[1]).toMatchObject({ afterMean: 0, afterCounted: 1 });
    expect(of(null)[0]).toMatchObject({ mean: 300, counted: 3, present: 4, afterMean: null });
  });

  it('counts an animal in the group it was in on that day', () => {
    expect(of('lambs').map(({ present }) => present)).toEqual([2, 1]);
  });

  it('has no mean, not 0, where nothing was counted, and says who had too many', () => {
    expect(of('lambs')[1]).toMatchObject({ mean: null, counted: 0, tooMany: 1 });
  });

  it('counts animals only from the day they came', () => {
    expect(of(null).map(({ present }) => present)).toEqual([4, 5]);
  });

  it('has one line where there is one group or none', () => {
    expect(seasonMeans(emptyHerd(days), new Map()).map(({ group }) => group)).toEqual([null]);
  });
});
