import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { atLeast } from '../../src/stats/at-least.ts';
import { bracketedRoot } from '../../src/stats/bracketed-root.ts';
import {
  ceiling,
  compare,
  exact,
  product,
  quotient,
  sum,
  toNumber,
} from '../../src/stats/exact-decimal.ts';
import { gammaAbove, gammaBelow, gammaQuantile } from '../../src/stats/gamma-law.ts';
import { quantileOf } from '../../src/stats/herd-mean.ts';
import { sumOfLogs, sumOfReciprocals } from '../../src/stats/rising-sum.ts';
import { logGap, stirlingRest } from '../../src/stats/stirling.ts';
import { studentQuantile } from '../../src/stats/student-quantile.ts';
import { expectClose } from './check-values.ts';

describe('exact decimals', () => {
  it('adds tenths, divides and rounds up as on paper', () => {
    expect(toNumber(sum(exact(0.1), exact(0.2)))).toBe(0.3);
    expect(toNumber(quotient(product(exact(3), exact(0.4)), exact(0.8)))).toBe(1.5);
    expect(ceiling(quotient(exact(0.3), exact(0.1)))).toBe(3n);
    expect(ceiling(exact(-1.5))).toBe(-1n);
    expect(compare(sum(exact(0.1), exact(0.2)), exact(0.3))).toBe(0);
    expect(compare(exact(-2), exact(1e-9))).toBe(-1);
    expect(toNumber(quotient(exact(1), exact(-4)))).toBe(-0.25);
    expect(() => quotient(exact(1), exact(0))).toThrow(/division by 0/);
    expect(() => exact(NaN)).toThrow(/NaN/);
  });

  it('gives every finite number back', () => {
    const numbers = fc.double({ noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(numbers, (x) => toNumber(exact(x)) === (x === 0 ? 0 : x)),
      { seed: 3, numRuns: 1000 },
    );
  });
});

describe('atLeast(x, limit)', () => {
  it('is inclusive with a hair of slack, and no more', () => {
    expect(atLeast(1000, 1000)).toBe(true);
    expect(atLeast(999.9999999999, 1000)).toBe(true);
    expect(atLeast(999.99, 1000)).toBe(false);
    expect(atLeast(-10, -10)).toBe(true);
    expect(atLeast(0, 0)).toBe(true);
    expect(atLeast(-1e-12, 0)).toBe(false);
    expect(atLeast(NaN, 0)).toBe(false);
  });
});

describe('bracketedRoot(f, a, b)', () => {
  it('finds roots of smooth, flat and steep functions', () => {
    expectClose(
      bracketedRoot((x) => x * x - 2, 0, 2),
      Math.SQRT2,
      1e-12,
    );
    expectClose(
      bracketedRoot((x) => Math.exp(x) - 1e6, -50, 50),
      Math.log(1e6),
      1e-12,
    );
    expectClose(
      bracketedRoot((x) => (x - 1) ** 9, -3, 2.5),
      1,
      1e-2,
    );
    expectClose(
      bracketedRoot((x) => (x < 0.3 ? -1 : 1), -10, 10),
      0.3,
      1e-10,
    );
    expect(bracketedRoot((x) => x, 0, 5)).toBe(0);
    expect(bracketedRoot((x) => x - 5, 0, 5)).toBe(5);
  });

  it('throws without a sign change: that is a bug of ours', () => {
    expect(() => bracketedRoot((x) => x * x + 1, -1, 1)).toThrow(/no sign change/);
    expect(() => bracketedRoot(() => NaN, -1, 1)).toThrow(/no sign change/);
  });
});

describe('the gamma law', () => {
  // scipy 1.17 (Cephes, Boost), and mpmath with 40 figures for the last row, where scipy errs by 7e-4.
  it.each([
    [1010, 1001, 0.6156755845505992],
    [1063.952136016302, 1001, 0.9749999999999999],
    [6000, 5800, 0.9953510320787177],
    [60, 20, 0.9999999993648082],
    [3, 2.5, 0.6937810815867212],
    [185, 171.2, 0.8538138194165735],
    [400.1, 380.7, 0.840105843519112],
    [2990289.891359724, 3000000, 1e-8],
  ])('below %f at shape %f', (x, shape, chance) => {
    expectClose(gammaBelow(x, shape), chance, 1e-11);
    expectClose(gammaAbove(x, shape), 1 - chance, 1e-6);
  });

  it('is e^−x and its sums for whole shapes (elementary)', () => {
    for (const x of [1e-9, 0.1, 1, 5, 30]) {
      expectClose(gammaAbove(x, 1), Math.exp(-x), 1e-13);
      expectClose(gammaAbove(x, 3), Math.exp(-x) * (1 + x + (x * x) / 2), 1e-12);
    }
    expect(gammaBelow(0, 3)).toBe(0);
    expect(gammaAbove(0, 3)).toBe(1);
  });

  it('gammaQuantile is the way back, over 12 powers of ten of the shape', () => {
    for (const shape of [0.05, 0.5, 1, 2.5, 12, 190.3, 1001, 5800, 1e5, 3e6, 1e8]) {
      for (const p of [1e-8, 0.005, 0.025, 0.3, 0.5, 0.7, 0.975, 0.995]) {
        const x = gammaQuantile(p, shape);
        expectClose(
          p < 0.5 ? gammaBelow(x, shape) : gammaAbove(x, shape),
          p < 0.5 ? p : 1 - p,
          1e-8,
        );
      }
    }
    // χ² with 1 degree of freedom at 95 %, any statistics table.
    expect(2 * gammaQuantile(0.95, 0.5)).toBeCloseTo(3.841459, 6);
    expect(gammaQuantile(0.05, 1e-3)).toBe(0);
  });
});

describe('sums for the likelihood', () => {
  it('long runs are what adding up gives', () => {
    for (const k of [1e-6, 0.3, 1, 40, 1e4, 1e6]) {
      for (const [from, to] of [
        [0, 5],
        [0, 24],
        [0, 25],
        [3, 400],
        [900, 3000],
      ] as const) {
        let logs = 0;
        let reciprocals = 0;
        for (let j = from; j < to; j++) {
          logs += Math.log1p(j / k);
          reciprocals += 1 / (k + j);
        }
        expectClose(sumOfLogs(k, from, to), logs, 1e-9);
        expectClose(sumOfReciprocals(k, from, to), reciprocals, 1e-12);
      }
    }
  });

  it('Stirling’s rest gives factorials back', () => {
    let logFactorial = 0;
    for (let n = 1; n <= 30; n++) {
      // lnΓ(n) = ln (n − 1)!
      const stirling = (n - 0.5) * Math.log(n) - n + 0.5 * Math.log(2 * Math.PI) + stirlingRest(n);
      expect(Math.abs(stirling - logFactorial)).toBeLessThan(1e-12);
      logFactorial += Math.log(n);
    }
    // Γ(½) = √π
    expectClose(
      stirlingRest(0.5),
      0.5 * Math.log(Math.PI) + 0.5 - 0.5 * Math.log(2 * Math.PI),
      1e-14,
    );
  });

  it('v − ln(1 + v) keeps its figures near 0', () => {
    expectClose(logGap(1e-8), 5e-17 - 1e-24 / 3, 1e-14);
    expectClose(logGap(-1e-8), 5e-17 + 1e-24 / 3, 1e-14);
    expect(logGap(0)).toBe(0);
    for (const v of [-0.9, -0.31, -0.29, 0.29, 0.31, 5]) {
      expectClose(logGap(v), v - Math.log1p(v), 1e-13);
    }
  });
});

describe('quantiles', () => {
  it('studentQuantile: printed t tables, 15 + 15 and 10 + 10 animals', () => {
    expect(studentQuantile(0.975, 28)).toBeCloseTo(2.048, 3);
    expect(studentQuantile(0.975, 18)).toBeCloseTo(2.101, 3);
    expect(studentQuantile(0.975, 22)).toBeCloseTo(2.0739, 4);
    expect(studentQuantile(0.95, 1)).toBeCloseTo(6.3138, 4);
  });

  it('quantileOf is type 7, as R’s quantile(c(1, 2, 4, 8), …)', () => {
    expect(quantileOf([8, 1, 4, 2], 0.25)).toBe(1.75);
    expect(quantileOf([8, 1, 4, 2], 0.9)).toBeCloseTo(6.8, 12);
    expect(quantileOf([8, 1, 4, 2], 1)).toBe(8);
  });
});
