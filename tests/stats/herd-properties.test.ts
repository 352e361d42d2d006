import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { isFault } from '../../shared/value.ts';
import { aggregation } from '../../src/stats/aggregation.ts';
import { countedMeanLimits } from '../../src/stats/counted-mean-limits.ts';
import { eggShare } from '../../src/stats/egg-share.ts';
import { herdMean, herdMedian } from '../../src/stats/herd-mean.ts';
import { herdMeanLimits } from '../../src/stats/herd-mean-limits.ts';
import { poissonLimits } from '../../src/stats/poisson-limits.ts';
import { reductionLimits } from '../../src/stats/reduction-limits.ts';
import { shareFrom } from '../../src/stats/share-from.ts';
import { shedderLuck } from '../../src/stats/shedder-luck.ts';
import { shedderShare } from '../../src/stats/shedder-share.ts';
import { checkValues, expectClose, figure } from './check-values.ts';

const runs = { seed: 20260503, numRuns: 150 };
/** Counts as herds have them: many zeros, a few very high. */
const count = fc.oneof(
  { weight: 3, arbitrary: fc.integer({ min: 0, max: 12 }) },
  { weight: 1, arbitrary: fc.integer({ min: 0, max: 400 }) },
);
const factor = fc.constantFrom(15, 25, 50, 100 / 3, 100);
const herd = fc.array(count, { minLength: 6, maxLength: 30 });
const mixedHerd = fc.array(fc.tuple(count, factor), { minLength: 6, maxLength: 30 });
const enough = (eggs: readonly number[]): boolean => eggs.filter((x) => x > 0).length >= 3;

/** All herd figures of one herd, in one list; faults stand as their kind. */
function allFigures(eggs: readonly (number | null)[], factors: readonly (number | null)[]) {
  const epgs = eggs.map((x, i) => {
    const f = factors[i] ?? null;
    return x === null || f === null ? null : x * f;
  });
  const limits = herdMeanLimits(eggs, factors);
  const counted = countedMeanLimits(eggs, factors);
  const known = eggs.map((x, i) => (factors[i] === null ? null : x));
  return [
    herdMean(epgs),
    herdMedian(epgs),
    shedderShare(epgs),
    eggShare(epgs),
    shareFrom(epgs, 500),
    shedderLuck(known),
    aggregation(eggs, factors),
    isFault(limits) ? limits : limits.low,
    isFault(limits) ? limits : limits.high,
    isFault(limits) ? limits : limits.modelMean,
    isFault(counted) ? counted : counted.low,
    isFault(counted) ? counted : counted.high,
  ].map((x) => (isFault(x) ? x.fault : x));
}

function expectAlike(a: readonly (number | string)[], b: readonly (number | string)[]) {
  for (const [i, x] of a.entries()) {
    const y = b[i] ?? NaN;
    if (typeof x === 'string' || typeof y === 'string' || x === y) expect(x).toBe(y);
    else expectClose(x, y, 1e-7);
  }
}

describe('any herd', () => {
  it('limits hold the model mean, and a wider level gives wider limits', () => {
    fc.assert(
      fc.property(mixedHerd, (animals) => {
        const eggs = animals.map(([x]) => x);
        fc.pre(enough(eggs));
        const factors = animals.map(([, f]) => f);
        const at90 = figure(herdMeanLimits(eggs, factors, 0.9));
        const at95 = figure(herdMeanLimits(eggs, factors, 0.95));
        expect(at90.low).toBeLessThan(at90.modelMean);
        expect(at90.high).toBeGreaterThan(at90.modelMean);
        expect(at95.low).toBeLessThan(at90.low);
        if (at95.high !== Infinity) expect(at95.high).toBeGreaterThan(at90.high);
        const narrow = figure(countedMeanLimits(eggs, factors, 0.9));
        const wide = figure(countedMeanLimits(eggs, factors, 0.95));
        expect(narrow.low).toBeLessThan(at90.mean);
        expect(narrow.high).toBeGreaterThan(at90.mean);
        expect(wide.low).toBeLessThan(narrow.low);
        expect(wide.high).toBeGreaterThan(narrow.high);
      }),
      runs,
    );
  });

  it('scaling the factor scales mean and limits, and leaves k', () => {
    fc.assert(
      fc.property(herd, fc.constantFrom(0.1, 2, 7, 1000), (eggs, times) => {
        fc.pre(enough(eggs));
        const once = figure(herdMeanLimits(eggs, 50));
        const scaled = figure(herdMeanLimits(eggs, 50 * times));
        expectClose(scaled.low, once.low * times, 1e-7);
        if (once.high < 1e9) expectClose(scaled.high, once.high * times, 1e-6);
        expectClose(scaled.mean, once.mean * times, 1e-12);
        const counted = figure(countedMeanLimits(eggs, 50));
        expectClose(figure(countedMeanLimits(eggs, 50 * times)).high, counted.high * times, 1e-10);
        const k = aggregation(eggs, 50);
        if (!isFault(k)) expectClose(aggregation(eggs, 50 * times), k, 1e-5);
      }),
      runs,
    );
  });

  it('neither the order of the animals nor an uncounted one changes any figure', () => {
    fc.assert(
      fc.property(mixedHerd, fc.nat(), (animals, where) => {
        const eggs: (number | null)[] = animals.map(([x]) => x);
        const factors: (number | null)[] = animals.map(([, f]) => f);
        const figures = allFigures(eggs, factors);
        expectAlike(allFigures([...eggs].reverse(), [...factors].reverse()), figures);
        const at = where % (eggs.length + 1);
        expectAlike(allFigures(eggs.toSpliced(at, 0, null), factors.toSpliced(at, 0, 50)), figures);
        expectAlike(allFigures(eggs.toSpliced(at, 0, 9), factors.toSpliced(at, 0, null)), figures);
      }),
      runs,
    );
  });

  it('any level and count: Poisson limits hold the count and widen with the level', () => {
    fc.assert(
      fc.property(fc.nat(5000), fc.double({ min: 0.05, max: 0.99, noNaN: true }), (eggs, level) => {
        const inner = figure(poissonLimits(eggs, level));
        const outer = figure(poissonLimits(eggs, level + 0.009));
        expect(inner.low).toBeLessThanOrEqual(eggs);
        expect(inner.high).toBeGreaterThan(eggs);
        expect(outer.high).toBeGreaterThan(inner.high);
        if (eggs > 0) expect(outer.low).toBeLessThan(inner.low);
      }),
      { ...runs, numRuns: 500 },
    );
  });
});

describe('any dewormer check', () => {
  const pairs = fc.array(fc.tuple(count, fc.nat(6), factor, factor), {
    minLength: 2,
    maxLength: 25,
  });
  const countsOf = (rows: [number, number, number, number][]) => ({
    before: rows.map((row) => row[0]),
    after: rows.map((row) => row[1]),
    factorBefore: rows.map((row) => row[2]),
    factorAfter: rows.map((row) => row[3]),
  });

  it('limits hold the reduction, widen with the level, and heed neither order nor gaps nor unit', () => {
    fc.assert(
      fc.property(pairs, fc.constantFrom('adjusted', 'log-t'), (rows, method) => {
        const limits = reductionLimits(countsOf(rows), 0.9, method);
        const swapped = reductionLimits(countsOf([...rows].reverse()), 0.9, method);
        if (isFault(limits)) {
          expect(swapped).toEqual(limits);
          return;
        }
        expect(limits.low).toBeLessThanOrEqual(limits.reduction);
        expect(limits.high).toBeGreaterThanOrEqual(limits.reduction);
        const wide = reductionLimits(countsOf(rows), 0.95, method);
        if (isFault(wide)) {
          expect(wide.fault).toBe('no-limits');
        } else {
          expect(wide.low).toBeLessThanOrEqual(limits.low);
          expect(wide.high).toBeGreaterThanOrEqual(limits.high);
        }
        expectClose(figure(swapped).low, limits.low, 1e-7);
        const counts = countsOf(rows);
        const gap = reductionLimits(
          {
            before: [...counts.before, 12, null],
            after: [...counts.after, null, 3],
            factorBefore: [...counts.factorBefore, 50, 50],
            factorAfter: [...counts.factorAfter, 50, 50],
          },
          0.9,
          method,
        );
        expect(gap).toEqual(limits);
        const scaled = figure(
          reductionLimits(
            {
              ...counts,
              factorBefore: counts.factorBefore.map((f) => f * 4),
              factorAfter: counts.factorAfter.map((f) => f * 4),
            },
            0.9,
            method,
          ),
        );
        // In proportions that are left, since a limit near 0 % has no relative precision.
        expectClose(1 - scaled.low / 100, 1 - limits.low / 100, 1e-9);
        expectClose(1 - scaled.high / 100 + 1, 1 - limits.high / 100 + 1, 1e-9);
      }),
      { ...runs, numRuns: 500 },
    );
  });
});

describe('profile limits against a plain grid', () => {
  /** Log-likelihood from the negative binomial formula itself, factor by factor, with no shared code. */
  function plain(eggs: readonly number[], factors: readonly number[], mean: number, k: number) {
    let total = 0;
    for (const [i, x] of eggs.entries()) {
      const m = mean / (factors[i] ?? NaN);
      for (let j = 0; j < x; j++) total += Math.log((k + j) / (j + 1));
      total += k * Math.log(k / (k + m)) + x * Math.log(m / (k + m));
    }
    return total;
  }
  const ks = Array.from({ length: 280 }, (_, i) => Math.exp(-7 + i * 0.05));
  const best = (eggs: readonly number[], factors: readonly number[], mean: number): number =>
    Math.max(...ks.map((k) => plain(eggs, factors, mean, k)));

  const herds = [
    ...checkValues.herds
      .filter((row) => row.k_ml !== null)
      .map((row) => ({ ...row, factors: row.eggs.map(() => row.factor) })),
    ...checkValues.herds_mixed_factor.map((row) => ({ ...row, factors: row.factor })),
    {
      name: 'one low factor among high ones',
      eggs: [0, 0, 1, 2, 0, 180, 3],
      factors: [100, 100, 100, 100, 100, 10, 100],
    },
  ];
  it.each(herds)('$name', ({ eggs, factors }) => {
    const limits = figure(herdMeanLimits(eggs, factors));
    const top = best(eggs, factors, limits.modelMean);
    const means = Array.from({ length: 81 }, (_, i) => limits.modelMean * Math.exp((i - 40) / 20));
    const reach = 3.841458820694124;
    // No mean of the grid fits better than the model mean, and the limits part the grid where they should.
    for (const mean of [...means, limits.low * 0.99, limits.low * 1.01]) {
      const deviance = 2 * (top - best(eggs, factors, mean));
      expect(deviance).toBeGreaterThan(-0.01);
      const nearLimit = Math.abs(deviance - reach) < 0.01;
      const inside = mean > limits.low && mean < limits.high;
      if (!nearLimit) expect(deviance < reach, `mean ${mean}`).toBe(inside);
    }
  });
});
