import { fault, type Fault } from '../../shared/value.ts';
import { atLeast } from './at-least.ts';
import type { Pair } from './paired-counts.ts';
import { say } from '../text/say.ts';

/** The four classes of a dewormer check. */
export type Verdict = 'susceptible' | 'low resistant' | 'resistant' | 'inconclusive';

/** When a verdict word may stand at all; own choice, editable. */
export interface VerdictRule {
  /** Animals that must have eggs before treatment. */
  readonly fewestShedding: number;
  /** No animal may carry more than this share of the eggs before treatment. */
  readonly largestShare: number;
}

export const VERDICT_RULE: VerdictRule = { fewestShedding: 6, largestShare: 0.5 };

/**
 * The class of a dewormer from the limits of its reduction.
 *
 * | high < expected? | low ≥ threshold? | class |
 * | --- | --- | --- |
 * | no | yes | susceptible |
 * | yes | yes | low resistant |
 * | yes | no | resistant |
 * | no | no | inconclusive |
 *
 * Two one-sided tests on one interval: inferiority to what is expected, and non-inferiority to the lower
 * threshold. Units: all in %. Exact equality (relative 1e-9): high = expected is not below it; low = threshold has
 * reached it. Faults: no number, low above high, threshold not below expected.
 *
 * Source: Kaplan et al. 2023, Vet Parasitol 318:109936, as restated for horses by the AAEP 2024 guideline
 * (read there); "low resistant" and equality from memory (Denwood et al. 2023, Vet Parasitol 314:109867).
 * Expected 99 % and threshold 90 % (or 95 %) for sheep and goats: memory, ask your vet.
 */
export function reductionVerdict(
  low: number,
  high: number,
  expected: number,
  threshold: number,
): Verdict | Fault {
  if (![low, high, expected, threshold].every(Number.isFinite)) {
    return fault(
      'bad-number',
      say('A verdict needs both limits, the expected reduction and the threshold.'),
    );
  }
  if (low > high) return fault('bad-limits', say('The lower limit is above the upper limit.'));
  if (threshold >= expected) {
    return fault('bad-threshold', say('The lower threshold must be below the expected reduction.'));
  }
  if (expected > 100)
    return fault('bad-threshold', say('The expected reduction is at most 100 %.'));
  const falls = !atLeast(high, expected);
  const holds = atLeast(low, threshold);
  if (falls) return holds ? 'low resistant' : 'resistant';
  return holds ? 'susceptible' : 'inconclusive';
}

/** Why pairs cannot bear a verdict word. */
type Obstacle =
  { readonly is: 'too few'; readonly shedding: number } | { readonly is: 'one animal' };

function obstacleOf(pairs: readonly Pair[], rule: VerdictRule): Obstacle | null {
  let shedding = 0;
  let total = 0;
  let most = 0;
  for (const pair of pairs) {
    const epg = pair.before * pair.factorBefore;
    if (epg > 0) shedding += 1;
    if (epg > most) most = epg;
    total += epg;
  }
  if (shedding < rule.fewestShedding) return { is: 'too few', shedding };
  return most <= rule.largestShare * total * (1 + 1e-9) ? null : { is: 'one animal' };
}

/** Whether the pairs can bear a verdict word; without a sentence, for checks tried out by the thousand. */
export function bearsVerdict(pairs: readonly Pair[], rule: VerdictRule = VERDICT_RULE): boolean {
  return obstacleOf(pairs, rule) === null;
}

/**
 * `null` where the pairs can bear a verdict word, else the reason why not: too few animals had eggs before
 * treatment, or one carried more than half of them (epg before). Own choice, editable.
 */
export function verdictObstacle(
  pairs: readonly Pair[],
  rule: VerdictRule = VERDICT_RULE,
): Fault | null {
  const obstacle = obstacleOf(pairs, rule);
  if (obstacle === null) return null;
  if (obstacle.is === 'too few') {
    return fault(
      'too-few-shedding',
      say(
        'No verdict: {n, plural, one {# animal} other {# animals}} had eggs before treatment, and it takes {fewest}.',
        { n: obstacle.shedding, fewest: rule.fewestShedding },
      ),
    );
  }
  const percent = Math.round(100 * rule.largestShare);
  return fault(
    'one-animal',
    say('No verdict: one animal carried more than {percent} % of the eggs before treatment.', {
      percent,
    }),
  );
}
