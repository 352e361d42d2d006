import { describe, expect, it } from 'vitest';
import { epgHigh, epgLow, noEggLimit, poissonLimits } from '../../src/stats/poisson-limits.ts';
import { checkValues, csvRows, expectClose, expectFault, figure } from './check-values.ts';

describe('poissonLimits(eggs, level)', () => {
  it('agrees with R 4.2.2 (qchisq) for every count and level, 0 to 2000 eggs', () => {
    for (const row of checkValues.poisson) {
      const limits = figure(poissonLimits(row.eggs, row.level));
      expectClose(limits.low, row.low);
      expectClose(limits.high, row.high);
    }
  });

  it('agrees with the printed table of exact limits, 0 to 100 (Garwood 1936, Biometrika 28:437–442)', () => {
    const rows = csvRows('poisson-exact-limits.csv');
    expect(rows).toHaveLength(56);
    for (const row of rows) {
      const at95 = figure(poissonLimits(Number(row['count'])));
      const at90 = figure(poissonLimits(Number(row['count']), 0.9));
      expect(at95.low.toFixed(4)).toBe(row['lower95']);
      expect(at95.high.toFixed(4)).toBe(row['upper95']);
      expect(at90.low.toFixed(4)).toBe(row['lower90']);
      expect(at90.high.toFixed(4)).toBe(row['upper90']);
    }
  });

  it('gives the same answer the second time, for any level', () => {
    for (const level of [0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 0.99, 0.999, 0.9999]) {
      const first = figure(poissonLimits(7, level));
      expect(figure(poissonLimits(7, level))).toEqual(first);
      expect(first.low).toBeLessThan(7);
      expect(first.high).toBeGreaterThan(7);
    }
  });

  it('is a fault for half eggs, negative eggs, no number, and levels outside 0 to 1', () => {
    expectFault(poissonLimits(2.5), 'eggs-not-whole');
    expectFault(poissonLimits(-1), 'bad-eggs');
    expectFault(poissonLimits(NaN), 'bad-eggs');
    expectFault(poissonLimits(Infinity), 'bad-eggs');
    for (const level of [0, 1, -0.1, 95, NaN]) expectFault(poissonLimits(3, level), 'bad-level');
  });
});

describe('epgLow, epgHigh(eggs, factor)', () => {
  // Ranges that hold 95 % of repeat counts of a lamb, as printed by a New Zealand levy-board page, adapted from
  // Brambell 1963, J Helminthol 37:1–10. Counts were made at 50 epg per egg and the ranges are rounded to 50 epg.
  const ranges = [
    [100, 0, 350],
    [200, 50, 500],
    [300, 150, 650],
    [400, 200, 750],
    [500, 250, 900],
    [600, 300, 1050],
    [700, 400, 1150],
    [800, 450, 1250],
    [900, 550, 1400],
    [1000, 650, 1500],
  ] as const;

  it.each(ranges)(
    'at %i epg agrees with Brambell 1963 (%i to %i) to its rounding',
    (epg, low, high) => {
      expect(Math.abs(figure(epgLow(epg / 50, 50)) - low)).toBeLessThanOrEqual(50);
      expect(Math.abs(figure(epgHigh(epg / 50, 50)) - high)).toBeLessThanOrEqual(50);
    },
  );

  it('at 0 epg Brambell prints 150 and not 184: there all the 5 % stands on one side', () => {
    // With no egg seen there is no lower limit to miss, so the table leaves the whole 5 % above: −ln 0.05 = 2.9957
    // eggs. The two-sided form keeps 2.5 % for each side, −ln 0.025 = 3.689 eggs, 184 epg.
    expect(figure(epgLow(0, 50))).toBe(0);
    expectClose(epgHigh(0, 50), 184.444, 1e-5);
    expect(Math.round(figure(noEggLimit()) * 50)).toBe(150);
  });

  it('needs a factor above 0', () => {
    expectFault(epgLow(3, 0), 'bad-factor');
    expectFault(epgHigh(3, NaN), 'bad-factor');
    expectFault(epgHigh(0.5, 50), 'eggs-not-whole');
  });
});

describe('noEggLimit(level)', () => {
  it('is the 3.0 of the rule of three at 95 %', () => {
    expectClose(noEggLimit(), 2.995732273553991, 1e-14);
    expectClose(noEggLimit(0.9), Math.LN10, 1e-14);
    expectFault(noEggLimit(1), 'bad-level');
  });
});
