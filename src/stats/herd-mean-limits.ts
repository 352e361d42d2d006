import { fault, isFault, type Fault } from '../../shared/value.ts';
import { bracketedRoot } from './bracketed-root.ts';
import { countedAnimals, type CountedAnimals, type Factors } from './counted-animals.ts';
import { countGroups, type CountGroups } from './count-groups.ts';
import { gammaQuantile } from './gamma-law.ts';
import { mean, variance } from './herd-mean.ts';
import { checkLevel } from './input-check.ts';
import type { Limits } from './limits.ts';
import { fitNegativeBinomial, logLikelihood, profileLogLikelihood } from './negative-binomial.ts';
import { say } from '../text/say.ts';

/** Fewer animals counted than this, and no limits are given. */
export const FEWEST_COUNTED = 6;
/** Fewer animals with eggs than this (unless none has any), and no limits are given. */
export const FEWEST_SHEDDING = 3;
/** An upper limit above so many times the mean says no more than "high". */
export const USEFUL_TIMES_MEAN = 5;
/** How far from the best ln μ a limit is looked for; beyond, there is none. */
const LOG_MEAN_REACH = 60;

/** Limits of the mean of the herd the animals were drawn from. All in epg. */
export interface HerdMeanLimits extends Limits {
  /** Arithmetic mean of the animals counted. */
  readonly mean: number;
  /** Mean of the model, to which the limits belong; differs from `mean` only where factors differ. */
  readonly modelMean: number;
  /** k of the model; Infinity where the counts are no more spread than chance (also without any eggs). */
  readonly k: number;
  readonly counted: number;
  /** False where `high` is above 5 × the mean: say "no useful upper limit". */
  readonly usefulHigh: boolean;
  /** Where the arithmetic mean lies outside the limits: the row (from 0) that pulls it there, else `null`. */
  readonly pullingRow: number | null;
}

/**
 * Limits of the mean epg of *a herd the animals were drawn from*: counting luck and the differences
 * between animals together.
 *
 * Profile likelihood of the mean μ of the negative binomial (eggs of i have mean μ/Fᵢ), k free: all μ with
 * 2(ℓ̂ − ℓ(μ)) ≤ χ²₁(level). Poisson likelihood limits where the eggs are no more spread than chance; 0 to
 * −ln((1 − level)/2)/Σ(1/Fᵢ) where no egg was seen. Units: raw eggs, factors epg per egg, answer epg.
 * Missing animals are left out. Faults: fewer than 6 counted, fewer than 3 with eggs (unless none has),
 * eggs not whole, factor not above 0, bad level. Take the animals at random: a choice of thin ones is no herd.
 *
 * Source: profile likelihood, elementary (memory); in simulation on negative binomial herds its 95 % limits
 * cover 91–97 %, Student-t and gamma limits 86–94 % (own work). Values checked against R.
 */
export function herdMeanLimits(
  eggs: readonly (number | null)[],
  factors: Factors,
  level = 0.95,
): HerdMeanLimits | Fault {
  const counted = checkLevel(level) ?? countedAnimals(eggs, factors);
  if (isFault(counted)) return counted;
  const herd = countGroups(counted);
  const few = checkNumbers(herd);
  if (few) return few;
  const arithmetic = mean(counted.eggs.map((seen, i) => seen * (counted.factors[i] ?? NaN)));
  if (herd.eggs === 0) return noEggs(herd, level);
  const sameFactor = herd.groups.length === 1;
  const noSpread = sameFactor && variance(counted.eggs) <= mean(counted.eggs);
  const fit = noSpread
    ? { mean: arithmetic, k: Infinity, logLikelihood: logLikelihood(herd, arithmetic, Infinity) }
    : fitNegativeBinomial(herd);
  const reachable =
    fit.k === Infinity
      ? (value: number): number => logLikelihood(herd, value, Infinity)
      : (value: number): number => profileLogLikelihood(herd, value);
  const allowed = 2 * gammaQuantile(level, 0.5);
  const excess = (logMean: number): number =>
    2 * (fit.logLikelihood - reachable(Math.exp(logMean))) - allowed;
  const modelMean = sameFactor ? arithmetic : fit.mean;
  const low = limitOnSide(excess, Math.log(fit.mean), -1);
  const high = limitOnSide(excess, Math.log(fit.mean), 1);
  const outside = arithmetic < low || arithmetic > high;
  return {
    low,
    high,
    mean: arithmetic,
    modelMean,
    k: fit.k,
    counted: herd.animals,
    usefulHigh: high <= USEFUL_TIMES_MEAN * arithmetic,
    pullingRow: outside ? pullingRow(counted, arithmetic) : null,
  };
}

/** Lower limit of `herdMeanLimits` in epg, with the same rules and faults. */
export function herdMeanLow(
  eggs: readonly (number | null)[],
  factors: Factors,
  level = 0.95,
): number | Fault {
  const limits = herdMeanLimits(eggs, factors, level);
  return isFault(limits) ? limits : limits.low;
}

/** Upper limit of `herdMeanLimits` in epg; a fault, too, where the counts set no upper limit at all. */
export function herdMeanHigh(
  eggs: readonly (number | null)[],
  factors: Factors,
  level = 0.95,
): number | Fault {
  const limits = herdMeanLimits(eggs, factors, level);
  if (isFault(limits)) return limits;
  if (limits.high !== Infinity) return limits.high;
  return fault(
    'no-upper-limit',
    say('So few animals carry the eggs that the counts set no upper limit: count more animals.'),
  );
}

function checkNumbers(herd: CountGroups): Fault | null {
  if (herd.animals < FEWEST_COUNTED) {
    return fault(
      'too-few',
      say('Only {animals} counted: limits for the herd need at least {fewest} animals.', {
        animals: herd.animals,
        fewest: FEWEST_COUNTED,
      }),
    );
  }
  if (herd.shedding === 0 || herd.shedding >= FEWEST_SHEDDING) return null;
  return fault(
    'too-few-shedding',
    say(
      'Only {n, plural, one {# animal has} other {# animals have}} eggs: limits for the herd need at least {fewest} animals with eggs.',
      { n: herd.shedding, fewest: FEWEST_SHEDDING },
    ),
  );
}

function noEggs(herd: CountGroups, level: number): HerdMeanLimits {
  const looked = herd.groups.reduce((sum, group) => sum + group.animals / group.factor, 0);
  return {
    low: 0,
    high: -Math.log((1 - level) / 2) / looked,
    mean: 0,
    modelMean: 0,
    k: Infinity,
    counted: herd.animals,
    usefulHigh: true,
    pullingRow: null,
  };
}

/** Walks from the best ln μ in growing steps until the likelihood has fallen enough, then closes in. */
function limitOnSide(excess: (logMean: number) => number, best: number, side: 1 | -1): number {
  let inner = best;
  let step = 0.125;
  while (Math.abs(inner - best) < LOG_MEAN_REACH) {
    const outer = inner + side * step;
    const atOuter = excess(outer);
    if (atOuter > 0) {
      const atInner = excess(inner);
      return Math.exp(bracketedRoot(excess, inner, outer, 1e-9, atInner, atOuter));
    }
    inner = outer;
    step *= 2;
  }
  return side === 1 ? Infinity : 0;
}

function pullingRow(counted: CountedAnimals, arithmetic: number): number | null {
  let farthest = -1;
  let row: number | null = null;
  for (const [i, seen] of counted.eggs.entries()) {
    const distance = Math.abs(seen * (counted.factors[i] ?? NaN) - arithmetic);
    if (distance > farthest) {
      farthest = distance;
      row = counted.rows[i] ?? null;
    }
  }
  return row;
}
