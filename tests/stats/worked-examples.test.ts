import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { epg } from '../../src/stats/epg.ts';
import { eggFactor } from '../../src/stats/egg-factor.ts';
import { groupReduction, groupReductionLimits } from '../../src/stats/group-reduction.ts';
import { covariance, mean, variance } from '../../src/stats/herd-mean.ts';
import { reduction } from '../../src/stats/reduction.ts';
import { reductionLimits } from '../../src/stats/reduction-limits.ts';
import { figure } from './check-values.ts';

describe('published worked examples', () => {
  it('12 and 15 eggs in two chambers at a factor of 50 are 1350 epg (FAO/RVC guide, calculation page)', () => {
    expect(epg(12 + 15, figure(eggFactor(3, 42, 0.15, 2)))).toBe(1350);
  });

  it('4 eggs per grid on average, 3 g in 45 mL, are 400 epg (Cork & Lejeune, 3rd ed. p. 120)', () => {
    expect(epg(4, figure(eggFactor(3, 42, 0.15, 1)))).toBe(400);
  });

  it('group means 204.07, 59.8 and 18.8 epg are reductions of 71 and 90.7 % (J Vet Res Tehran, art. 75390)', () => {
    expect(Math.round(figure(groupReduction([59.8], [204.07])))).toBe(71);
    // Printed as 90.66 %; the printed, rounded means give 90.79.
    expect(Math.abs(figure(groupReduction([18.8], [204.07])) - 90.66)).toBeLessThan(0.15);
  });

  it('lamb worm counts: means, standard deviations and the 1992 limits (Ott & Longnecker textbook)', () => {
    const treated = [18, 43, 28, 50, 16, 32, 13, 35, 38, 33, 6, 7];
    const untreated = [40, 54, 26, 63, 21, 37, 39, 23, 48, 58, 28, 39];
    expect(mean(treated)).toBeCloseTo(26.5833, 4);
    expect(mean(untreated)).toBeCloseTo(39.6667, 4);
    expect(Math.sqrt(variance(treated))).toBeCloseTo(14.3619, 4);
    expect(Math.sqrt(variance(untreated))).toBeCloseTo(13.8586, 4);
    const v =
      variance(treated) / (12 * mean(treated) ** 2) +
      variance(untreated) / (12 * mean(untreated) ** 2);
    expect(v).toBeCloseTo(0.0344955, 7);
    expect(figure(groupReduction(treated, untreated))).toBeCloseTo(32.98, 2);
    const limits = figure(groupReductionLimits(treated, untreated));
    expect(limits.low).toBeCloseTo(1.49, 2);
    expect(limits.high).toBeCloseTo(54.41, 2);
  });
});

const projectRoot = fileURLToPath(new URL('../../', import.meta.url));
const openData = join(projectRoot, '..', 'shared', 'data', 'sheep-before-after-counts.csv');

/** Raw counts of both days, of the sheep that `wanted` picks. */
function sheep(wanted: (row: Record<string, string>) => boolean) {
  const [header = '', ...lines] = readFileSync(openData, 'utf8').trim().split(/\r?\n/);
  const keys = header.split(',');
  const rows = lines
    .map((line) => Object.fromEntries(line.split(',').map((cell, i) => [keys[i] ?? '', cell])))
    .filter(wanted);
  return {
    before: rows.map((row) => Number(row['EggCountBefore'])),
    after: rows.map((row) => Number(row['EggCountAfter'])),
  };
}

// Open data (MIT): counts of 230 sheep before and after treatment, repository Bashvet/Bayesian-GIN-Model, file
// GinJagsNig.csv, commit 84fc53e7. No reduction was published; R 4.2.2 and scipy agree on the figures below.
const withData = existsSync(openData) ? it : it.skip;
const told = existsSync(openData) ? '' : ' (skipped: the open data file is not beside the project)';

describe('open counts of 230 sheep', () => {
  withData(`60 sheep of Kaduna${told}`, () => {
    const { before, after } = sheep((row) => row['Location'] === 'Kaduna');
    expect(before).toHaveLength(60);
    expect(mean(before)).toBeCloseTo(3.53333, 5);
    expect(mean(after)).toBeCloseTo(0.4, 10);
    expect(variance(before)).toBeCloseTo(46.659887, 6);
    expect(variance(after)).toBeCloseTo(0.989831, 6);
    expect(covariance(before, after)).toBeCloseTo(3.783051, 6);
    expect(figure(reduction(before, after))).toBeCloseTo(88.6792, 4);
    const gamma = figure(reductionLimits({ before, after }, 0.9, 'gamma'));
    expect(gamma.low).toBeCloseTo(83.098, 3);
    expect(gamma.high).toBeCloseTo(93.284, 3);
    const logT = figure(reductionLimits({ before, after }, 0.9, 'log-t'));
    expect(logT.low).toBeCloseTo(82.045, 3);
    expect(logT.high).toBeCloseTo(92.862, 3);
    const unpaired = figure(groupReductionLimits(after, before));
    expect(unpaired.low).toBeCloseTo(74.67, 3);
    expect(unpaired.high).toBeCloseTo(94.94, 3);
  });

  withData(`all 230 sheep${told}`, () => {
    const { before, after } = sheep(() => true);
    expect(before.reduce((sum, x) => sum + x, 0)).toBe(1209);
    expect(after.reduce((sum, x) => sum + x, 0)).toBe(596);
    expect(figure(reduction(before, after))).toBeCloseTo(50.7031, 4);
    const gamma = figure(reductionLimits({ before, after }, 0.9, 'gamma'));
    expect(gamma.low).toBeCloseTo(41.025, 3);
    expect(gamma.high).toBeCloseTo(59.641, 3);
    const logT = figure(reductionLimits({ before, after }, 0.9, 'log-t'));
    expect(logT.low).toBeCloseTo(40.395, 3);
    expect(logT.high).toBeCloseTo(59.228, 3);
    const unpaired = figure(groupReductionLimits(after, before));
    expect(unpaired.low).toBeCloseTo(33.651, 3);
    expect(unpaired.high).toBeCloseTo(63.373, 3);
  });

  withData(`68 sheep of commercial farms: the count went up, and says so${told}`, () => {
    const { before, after } = sheep((row) => row['Farm_type'] === 'Commercial');
    expect(before).toHaveLength(68);
    expect(figure(reduction(before, after))).toBeCloseTo(-27.7, 2);
    expect(figure(reductionLimits({ before, after })).low).toBeLessThan(-27.7);
  });
});
