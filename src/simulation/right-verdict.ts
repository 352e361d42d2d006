import { atLeast } from '../stats/at-least.ts';
import type { Verdict } from '../stats/reduction-verdict.ts';

/**
 * What a check with endless eggs would say of a drug of that true reduction: susceptible where it reaches what is
 * expected, low resistant where it reaches the lower threshold only, else resistant. All in %.
 * Source: the classes of `reductionVerdict`, with both limits at the truth.
 */
export function rightVerdict(efficacy: number, expected: number, threshold: number): Verdict {
  if (atLeast(efficacy, expected)) return 'susceptible';
  return atLeast(efficacy, threshold) ? 'low resistant' : 'resistant';
}
