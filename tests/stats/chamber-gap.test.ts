import { describe, expect, it } from 'vitest';
import { chamberGap } from '../../src/stats/chamber-gap.ts';
import { checkValues, expectClose, expectFault, figure } from './check-values.ts';

describe('chamberGap(first, second, part1, part2)', () => {
  it.each(checkValues.chamber_gap)('$chamber1 and $chamber2: p of R 4.2.2 binom.test', (row) => {
    expectClose(chamberGap(row.chamber1, row.chamber2), row.p);
    expectClose(chamberGap(row.chamber2, row.chamber1), row.p);
  });

  it('12 and 15 are fine, and so says the rule |a − b| < 1.96·√(a + b)', () => {
    // Rule of thumb for two grids: 3 eggs apart against 1.96·√27 = 10.2 (elementary).
    expect(figure(chamberGap(12, 15))).toBeGreaterThan(0.05);
  });

  it('a whole grid of 20 and half a grid of 10 agree fully', () => {
    expect(chamberGap(20, 10, 1, 0.5)).toBe(1);
    expect(chamberGap(10, 20, 0.5, 1)).toBe(1);
    // Taken for two whole grids they would look apart: binom.test(20, 30) gives 0.09874 (R 4.2.2; scipy agrees).
    expectClose(chamberGap(20, 10), 0.09873714670538902, 1e-9);
  });

  it('adds up the splits no likelier than the one seen, unequal parts too', () => {
    // Every split added up by hand from the binomial law: 9 eggs, p₁ = 2/3, 2 seen where 6 are expected.
    const chance = (x: number): number => {
      let ways = 1;
      for (let i = 0; i < x; i++) ways = (ways * (9 - i)) / (i + 1);
      return ways * (2 / 3) ** x * (1 / 3) ** (9 - x);
    };
    const seen = chance(2);
    let sum = 0;
    for (let x = 0; x <= 9; x++) if (chance(x) <= seen * (1 + 1e-7)) sum += chance(x);
    expectClose(chamberGap(2, 7, 1, 0.5), sum, 1e-12);
  });

  it('does not falter at thousands of eggs', () => {
    const p = figure(chamberGap(2000, 2400));
    expect(p).toBeGreaterThan(0);
    expect(p).toBeLessThan(1e-8);
  });

  it('is a fault for nonsense', () => {
    expectFault(chamberGap(1.5, 2), 'eggs-not-whole');
    expectFault(chamberGap(-1, 2), 'bad-eggs');
    expectFault(chamberGap(1, NaN), 'bad-eggs');
    expectFault(chamberGap(1, 2, 0), 'bad-amount');
    expectFault(chamberGap(1, 2, 1, -1), 'bad-amount');
  });
});
