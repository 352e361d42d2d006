import { describe, expect, it } from 'vitest';
import { animalsNeeded, meanPrecision } from '../../src/stats/mean-precision.ts';
import { expectFault, figure } from './check-values.ts';

describe('meanPrecision(mean eggs, k, animals)', () => {
  // √((1/10 + 1/0.5)/n), elementary: 46, 32 and 23 %.
  it.each([
    [10, 46],
    [20, 32],
    [40, 23],
  ])('k 0.5 and 10 eggs, %i animals: %i %%', (animals, percent) => {
    expect(Math.round(100 * figure(meanPrecision(10, 0.5, animals)))).toBe(percent);
  });

  it('is 1/√total for animals that shed alike', () => {
    expect(meanPrecision(25, Infinity, 4)).toBeCloseTo(0.1, 12);
  });

  it('is a fault for nonsense', () => {
    expectFault(meanPrecision(0, 0.5, 10), 'bad-amount');
    expectFault(meanPrecision(10, 0, 10), 'bad-amount');
    expectFault(meanPrecision(10, 0.5, 2.5), 'bad-amount');
    expectFault(meanPrecision(10, 0.5, 0), 'bad-amount');
    expectFault(animalsNeeded(10, 0.5, 0), 'bad-amount');
  });
});

describe('animalsNeeded(mean eggs, k, error)', () => {
  it('is the smallest number that reaches the precision', () => {
    for (const error of [0.5, 0.3, 0.25, 0.1]) {
      const animals = figure(animalsNeeded(10, 0.5, error));
      expect(figure(meanPrecision(10, 0.5, animals))).toBeLessThanOrEqual(error * (1 + 1e-9));
      if (animals > 1) expect(figure(meanPrecision(10, 0.5, animals - 1))).toBeGreaterThan(error);
    }
    expect(animalsNeeded(10, 0.5, 0.1)).toBe(210);
    expect(animalsNeeded(10, 0.5, 9)).toBe(1);
  });
});
