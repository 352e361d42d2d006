import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import binomialPmf from '@stdlib/stats-base-dists-binomial-pmf';
import type { Fault } from '../../shared/value.ts';
import { checkEggs, checkPositive } from './input-check.ts';
import { say } from '../text/say.ts';

/** Below this chance two chambers of one cup disagree more than luck explains. */
export const CHAMBERS_DISAGREE_BELOW = 0.01;

/**
 * How likely luck alone sets two chambers of one cup at least this far apart: exact two-sided binomial p
 * of the counts given their total, with p₁ = part₁/(part₁ + part₂). 1 means no gap to speak of; below 0.01:
 * stir, refill, recount, or check the typing.
 *
 * Two-sided by adding up all splits no more likely than the one seen (relative slack 1e-7), as R's
 * binom.test does. Units: raw eggs; parts of a grid counted (1 whole, 0.5 half). Missing: with one chamber
 * only there is nothing to compare; do not ask. Two empty chambers agree (1). Faults: eggs not whole,
 * parts not above 0.
 *
 * Source: Clopper & Pearson's exact binomial as in R's binom.test (memory); a Poisson count split in two
 * is binomial given its total (elementary).
 */
export function chamberGap(first: number, second: number, part1 = 1, part2 = 1): number | Fault {
  const wrong =
    checkEggs(first) ??
    checkEggs(second) ??
    checkPositive(part1, () =>
      say('The part of the first chamber that was counted must be more than 0.'),
    ) ??
    checkPositive(part2, () =>
      say('The part of the second chamber that was counted must be more than 0.'),
    );
  if (wrong) return wrong;
  const total = first + second;
  const p = part1 / (part1 + part2);
  if (first === total * p) return 1;
  return first < total * p
    ? bothTails(first, total, p)
    : bothTails(second, total, part2 / (part1 + part2));
}

/** P for a count `low` that lies under its expectation: the tail below, and its match above. */
function bothTails(low: number, total: number, p: number): number {
  const ceiling = binomialPmf(low, total, p) * (1 + 1e-7);
  // Above the mode the chances only fall: search the first split as unlikely as the one seen.
  let from = Math.ceil(total * p);
  let to = total + 1;
  while (from < to) {
    const middle = Math.floor((from + to) / 2);
    if (binomialPmf(middle, total, p) <= ceiling) to = middle;
    else from = middle + 1;
  }
  const below = binomialCdf(low, total, p);
  const above = from > total ? 0 : binomialCdf(total - from, total, 1 - p);
  return Math.min(1, below + above);
}
