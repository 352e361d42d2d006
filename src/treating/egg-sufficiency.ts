import { shortNumber } from './short-number.ts';
import type { Pair } from '../stats/paired-counts.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import { say } from '../text/say.ts';

/** Whether the eggs counted before treatment can carry a good verdict at all. */
export interface EggSufficiency {
  readonly eggs: number;
  /** Fewest eggs before with which no egg after would put the lower limit at the threshold. */
  readonly needed: number;
  readonly canSuffice: boolean;
  readonly sentence: string;
}

/**
 * How many eggs must be counted before treatment for the lower limit to reach `threshold` % when no egg at all
 * is found after: the smallest total N with (F₂/F₁)(a^(−1/N) − 1) ≤ 1 − threshold/100, a = (1 − level)/2. At 90 % limits and equal
 * factors 62 for 95 % and 32 for 90 %. `scale` is F₂/F₁.
 *
 * Source: two Poisson counts given their total, elementary; own working, checked against R.
 */
export function eggsNeeded(threshold: number, level = 0.9, scale = 1): number {
  const allowed = (1 - threshold / 100) / scale;
  const exact = -Math.log((1 - level) / 2) / Math.log1p(allowed);
  return Math.ceil(exact * (1 - 1e-12));
}

/** Holds the eggs counted before treatment against what the threshold needs; with unequal factors the worst. */
export function eggSufficiency(
  pairs: readonly Pair[],
  threshold: number,
  level = 0.9,
  mark: DecimalMark = '.',
): EggSufficiency {
  const eggs = pairs.reduce((sum, pair) => sum + pair.before, 0);
  const shedding = pairs.filter((pair) => pair.before > 0);
  const scale = Math.max(0, ...shedding.map((pair) => pair.factorAfter / pair.factorBefore)) || 1;
  const needed = eggsNeeded(threshold, level, scale);
  const canSuffice = eggs >= needed;
  const needs = say(
    'A lower limit of {threshold} % needs {needed} eggs before treatment, and that only if no egg at all is found after{after, select, known { (one egg after needs about 150)} other {}}.',
    {
      threshold: shortNumber(threshold, 2, mark),
      needed,
      after: threshold === 95 && scale === 1 ? 'known' : 'other',
    },
  );
  return {
    eggs,
    needed,
    canSuffice,
    sentence: canSuffice
      ? say(
          '{eggs, plural, one {# egg was} other {# eggs were}} counted before treatment. {needs}',
          { eggs, needs },
        )
      : say(
          'Only {eggs, plural, one {# egg was} other {# eggs were}} counted before treatment: too few. {needs} Count more areas or more animals next time.',
          { eggs, needs },
        ),
  };
}
