import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { aggregation, aggregationByMoments, dispersionIndex } from '../../src/stats/aggregation.ts';
import { countedMeanLimits } from '../../src/stats/counted-mean-limits.ts';
import { eggShare } from '../../src/stats/egg-share.ts';
import { herdMean, herdMedian } from '../../src/stats/herd-mean.ts';
import { herdMeanHigh, herdMeanLimits, herdMeanLow } from '../../src/stats/herd-mean-limits.ts';
import { shareFrom } from '../../src/stats/share-from.ts';
import { shedderCaution, shedderLuck } from '../../src/stats/shedder-luck.ts';
import { shedderCount, shedderShare } from '../../src/stats/shedder-share.ts';
import { checkValues, expectClose, expectFault, figure } from './check-values.ts';

/** A figure, or a fault where R gives none. */
function expectSame(
  actual: ReturnType<typeof herdMean>,
  expected: number | null | undefined,
  relative = 1e-9,
) {
  if (expected === null || expected === undefined) expect(isFault(actual)).toBe(true);
  else expectClose(actual, expected, relative);
}

describe('herd figures against R 4.2.2', () => {
  for (const herd of checkValues.herds) {
    const epgs = herd.eggs.map((eggs) => eggs * herd.factor);
    it(`${herd.name}: mean, median, shares`, () => {
      expect(herd.eggs).toHaveLength(herd.n);
      expectClose(herdMean(epgs), herd.mean_epg);
      expectClose(herdMedian(epgs), herd.median_epg);
      expectSame(shedderShare(epgs), herd.shedder_share_80);
      expectSame(eggShare(epgs), herd.egg_share_top20);
      expectSame(shedderLuck(herd.eggs), herd.shedder_luck_80);
      expectClose(shareFrom(epgs, 1000), herd.over_1000);
    });
    it(`${herd.name}: spread between animals`, () => {
      expectSame(aggregation(herd.eggs, herd.factor), herd.k_ml, 1e-4);
      expectSame(aggregation(herd.eggs), herd.k_ml, 1e-4);
      expectSame(aggregationByMoments(herd.eggs), herd.k_moments);
      expectSame(dispersionIndex(herd.eggs), herd.dispersion_index);
    });
    it(`${herd.name}: limits of the mean`, () => {
      const counted = figure(countedMeanLimits(herd.eggs, herd.factor));
      expectClose(counted.low, herd.counted_low95);
      expectClose(counted.high, herd.counted_high95);
      const limits = figure(herdMeanLimits(herd.eggs, herd.factor));
      expectClose(limits.low, herd.mean_low95, 1e-6);
      expectClose(limits.high, herd.mean_high95, 1e-6);
      expectClose(limits.mean, herd.mean_epg);
      expectClose(herdMeanLow(herd.eggs, herd.factor), herd.mean_low95, 1e-6);
      expectClose(herdMeanHigh(herd.eggs, herd.factor), herd.mean_high95, 1e-6);
    });
  }

  for (const herd of checkValues.herds_mixed_factor) {
    it(`${herd.name}: unequal factors`, () => {
      const limits = figure(herdMeanLimits(herd.eggs, herd.factor));
      expectClose(limits.mean, herd.arithmetic_mean);
      expectClose(limits.modelMean, herd.model_mean, 1e-6);
      expectClose(limits.low, herd.mean_low95, 1e-6);
      expectClose(limits.high, herd.mean_high95, 1e-6);
      expectClose(limits.k, herd.k_ml, 1e-4);
      expectClose(aggregation(herd.eggs, herd.factor), herd.k_ml, 1e-4);
      const counted = figure(countedMeanLimits(herd.eggs, herd.factor));
      expectClose(counted.low, herd.counted_low95);
      expectClose(counted.high, herd.counted_high95);
    });
  }
});

describe('shares and luck', () => {
  it('shedderCount(epgs) says "2 of 5", ties and gaps included', () => {
    expect(shedderCount([500, 300, 100, 100, 0])).toEqual({ animals: 2, counted: 5 });
    expect(shedderCount([100, null, 500, 0, 300, null, 100])).toEqual({ animals: 2, counted: 5 });
    expect(shedderCount([200, 200, 200, 200, 200])).toEqual({ animals: 4, counted: 5 });
    // 0.1 + 0.2 + 0.5 falls a hair short of 0.8 of the total in binary arithmetic; it counts as reached.
    expect(shedderCount([0.5, 0.2, 0.1, 0.1, 0.1])).toEqual({ animals: 3, counted: 5 });
    expect(shedderCount([900, 100], 1)).toEqual({ animals: 2, counted: 2 });
  });

  it('eggShare(epgs) takes the top ceil(0.2 n)', () => {
    expectClose(eggShare([500, 300, 100, 100, 0]), 0.5, 1e-12);
    expectClose(eggShare([500, 300, 100, 100, 0, 0]), 0.8, 1e-12); // 1.2 animals: 2
    // 0.7 × 10 is 7.000000000000001 in binary arithmetic, yet 7 animals.
    expectClose(eggShare(new Array<number>(10).fill(100), 0.7), 0.7, 1e-12);
    expectClose(eggShare([100, null, 100], 1), 1, 1e-12);
  });

  it('shareFrom(epgs, limit) is inclusive', () => {
    expect(shareFrom([1000, 999, null, 1000.0000001, 0], 1000)).toBe(0.5);
    expect(shareFrom([(45 / (3 * 0.3)) * 20], 1000)).toBe(1);
    expectFault(shareFrom([1], NaN), 'bad-limit');
  });

  it('shedderLuck(eggs): of like animals with 2 eggs on average the top 20 % hold about 40 % (summed by hand)', () => {
    const p = (x: number): number => (Math.exp(-2) * 2 ** x) / [1, 1, 2, 6, 24, 120][x]!;
    // Animals with 4 or more, and of those with 3 as many as fill up the fifth.
    const four = 1 - p(0) - p(1) - p(2) - p(3);
    const eggsOfFour = (2 - p(1) - 2 * p(2) - 3 * p(3)) / 2;
    const share = eggsOfFour + ((0.2 - four) * 3) / 2;
    expect(share).toBeCloseTo(0.409, 3);
    expectClose(shedderLuck([2, 2, 2], share), 0.2, 1e-10);
  });

  it('shedderLuck(eggs) tends to the share itself in herds with many eggs', () => {
    expect(shedderLuck([1e6, 1e6])).toBeCloseTo(0.8, 2);
    expectClose(shedderLuck([3], 1), 1 - Math.exp(-3), 1e-12);
  });

  it('shedderCaution(eggs) names too small a herd and too low counts', () => {
    expect(shedderCaution(new Array<number>(10).fill(5))).toBeNull();
    expectFault(shedderCaution(new Array<number>(9).fill(50)), 'too-few-eggs');
    expectFault(shedderCaution(new Array<number>(30).fill(4)), 'too-few-eggs');
    expectFault(shedderCaution([]), 'no-counts');
  });

  it('no eggs, no answer', () => {
    expectFault(shedderShare([0, 0, 0]), 'no-eggs');
    expectFault(eggShare([0, null]), 'no-eggs');
    expectFault(shedderLuck([0, 0]), 'no-eggs');
    expectFault(aggregation([0, 0]), 'no-eggs');
    expect(shareFrom([0, 0], 500)).toBe(0);
  });

  it('share outside 0 to 1 is a fault', () => {
    expectFault(shedderShare([1], 0), 'bad-share');
    expectFault(shedderShare([1], 80), 'bad-share');
    expectFault(eggShare([1], NaN), 'bad-share');
    expectFault(shedderLuck([1], -1), 'bad-share');
  });
});

describe('missing, zero and wrong', () => {
  it('a mean of 0, no count and 4 is 2', () => {
    expect(herdMean([0, null, 4])).toBe(2);
    expect(herdMedian([0, null, 4, 5])).toBe(4);
    expect(herdMedian([1, 2, 4, 8])).toBe(3);
  });

  it('nobody counted is a fault everywhere, never 0', () => {
    for (const nobody of [[], [null, null]]) {
      for (const answer of [
        herdMean(nobody),
        herdMedian(nobody),
        shedderShare(nobody),
        eggShare(nobody),
        shareFrom(nobody, 500),
        shedderLuck(nobody),
        aggregation(nobody),
        aggregationByMoments(nobody),
        dispersionIndex(nobody),
        countedMeanLimits(nobody, 50),
        herdMeanLimits(nobody, 50),
        herdMeanLow(nobody, 50),
        herdMeanHigh(nobody, 50),
      ]) {
        expectFault(answer, 'no-counts');
      }
    }
  });

  it('half an egg, a negative or no number, unequal lists, a bad factor or level are faults', () => {
    const six = [1, 2, 3, 4, 5, 6];
    expectFault(herdMeanLimits([...six, 2.5], 50), 'eggs-not-whole');
    expectFault(herdMeanLimits([...six, -1], 50), 'bad-eggs');
    expectFault(countedMeanLimits([...six, NaN], 50), 'bad-eggs');
    expectFault(aggregation([...six, Infinity], 50), 'bad-eggs');
    expectFault(herdMeanLimits(six, [50, 50]), 'unequal-lists');
    expectFault(countedMeanLimits(six, [50, 50]), 'unequal-lists');
    expectFault(herdMeanLimits(six, 0), 'bad-factor');
    expectFault(aggregation(six, -1), 'bad-factor');
    expectFault(herdMeanLimits(six, 50, 1), 'bad-level');
    expectFault(countedMeanLimits(six, 50, 95), 'bad-level');
    expectFault(herdMean([1, -2]), 'bad-number');
    expectFault(shedderShare([1, NaN]), 'bad-number');
  });

  it('limits of a herd need 6 counted and 3 with eggs, or none with any', () => {
    expectFault(herdMeanLimits([1, 2, 3, 4, 5], 50), 'too-few');
    expectFault(herdMeanLimits([0, 0, 0, 0, 0], 50), 'too-few');
    expectFault(herdMeanLimits([0, 0, 0, 0, 1, 2], 50), 'too-few-shedding');
    expect(figure(herdMeanLimits([0, 0, 0, 1, 1, 2], 50)).low).toBeGreaterThan(0);
    expect(figure(herdMeanLimits([0, 0, 0, 0, 0, 0], 50)).low).toBe(0);
  });

  it('counts no more spread than chance have no k', () => {
    expectFault(aggregation([4, 5, 4, 5]), 'no-spread');
    expectFault(aggregation([4, 5, 4, 5], [50, 50, 50, 25]), 'no-spread');
    expectFault(aggregationByMoments([4, 5, 4, 5]), 'no-spread');
    expectFault(aggregation([4]), 'too-few');
    expect(figure(herdMeanLimits([4, 5, 4, 5, 4, 5], 50)).k).toBe(Infinity);
  });
});

describe('herdMeanLimits(eggs, factors)', () => {
  it('says when the upper limit is of no use, above 5 × the mean', () => {
    const wild = figure(herdMeanLimits([0, 7, 0, 31, 35, 176, 65, 0], 100 / 3));
    expect(wild.usefulHigh).toBe(false);
    expect(figure(herdMeanLimits([5, 10, 9, 51, 3, 11, 7], 15)).usefulHigh).toBe(true);
  });

  it('names the row whose factor pulls the arithmetic mean out of the limits', () => {
    // One egg seen at a factor of 5,000 weighs 5,000 epg in the arithmetic mean and next to nothing in the model.
    const eggs = [null, 9, 11, 10, 12, 8, 10, 11, 9, 10, 1];
    const factors = [50, 50, 50, 50, 50, 50, 50, 50, 50, 50, 5000];
    const limits = figure(herdMeanLimits(eggs, factors));
    expect(limits.mean).toBeGreaterThan(limits.high);
    expect(limits.pullingRow).toBe(10);
    expect(limits.counted).toBe(10);
    expect(figure(herdMeanLimits([5, 10, 9, 51, 3, 11, 7], 15)).pullingRow).toBeNull();
  });

  it('goes with two factors exactly as a herd at one factor where both are equal', () => {
    const eggs = [5, 10, 9, 51, 3, 11, 7];
    expect(
      herdMeanLimits(
        eggs,
        eggs.map(() => 15),
      ),
    ).toEqual(herdMeanLimits(eggs, 15));
  });
});
