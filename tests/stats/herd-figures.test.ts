import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { aggregation, aggregationByMoments, dispersionIndex } from '../../src/stats/aggregation.ts';
import { countedMeanLimits } from '../../src/stats/counted-mean-limits.ts';
import { eggShare } from '../../src/stats/egg-share.ts';
import { herdMean, herdMedian } from '../../src/stats/herd-mean.ts';
import { herdMeanHigh, herdMeanLimits, herdMeanLow } from '../../src/stats/herd-mean-limits.ts';
import { shareFrom } from '../../src/stats/share-from.ts';
import { shedderLuck } from '../../src/stats/shedder-luck.ts';
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
