import { describe, expect, it } from 'vitest';
import { overChance } from '../../src/stats/over-chance.ts';
import { checkValues, expectClose, expectFault, figure } from './check-values.ts';

describe('overChance(eggs, factor, limit, prior)', () => {
  it.each(checkValues.over_chance)('$eggs eggs, limit $limit epg: R 4.2.2 pgamma', (row) => {
    const prior =
      row.k === undefined || row.mean_epg === undefined
        ? undefined
        : { k: row.k, meanEpg: row.mean_epg };
    expectClose(overChance(row.eggs, row.factor, row.limit, prior), row.chance);
  });

  it('without an egg and without a prior is e^−λ (elementary)', () => {
    expectClose(overChance(0, 50, 250), Math.exp(-5), 1e-12);
    expect(overChance(3, 50, 0)).toBe(1);
  });

  it('rises with the eggs seen and falls with the limit', () => {
    for (let eggs = 1; eggs < 60; eggs++) {
      expect(figure(overChance(eggs, 50, 1000))).toBeGreaterThan(
        figure(overChance(eggs - 1, 50, 1000)),
      );
      expect(figure(overChance(eggs, 50, 1100))).toBeLessThan(figure(overChance(eggs, 50, 1000)));
    }
  });

  it('is a fault for nonsense', () => {
    expectFault(overChance(1.5, 50, 1000), 'eggs-not-whole');
    expectFault(overChance(1, 0, 1000), 'bad-factor');
    expectFault(overChance(1, 50, -1), 'bad-limit');
    expectFault(overChance(1, 50, NaN), 'bad-limit');
    expectFault(overChance(1, 50, 1000, { k: 0, meanEpg: 100 }), 'bad-prior');
    expectFault(overChance(1, 50, 1000, { k: Infinity, meanEpg: 100 }), 'bad-prior');
    expectFault(overChance(1, 50, 1000, { k: 1, meanEpg: 0 }), 'bad-prior');
  });
});
