import { fault, isFault, type Fault } from '../../shared/value.ts';
import { countedAnimals, type Factors } from './counted-animals.ts';
import { countGroups } from './count-groups.ts';
import { mean, variance } from './herd-mean.ts';
import { fitNegativeBinomial } from './negative-binomial.ts';
import { say } from '../text/say.ts';

/**
 * Negative binomial k of the herd by maximum likelihood: small (below 1) where few animals shed most.
 *
 * Units: raw eggs, factor in epg per egg (single or per animal; raw counts, since epg has the factor in
 * it); k has none. Missing animals are left out. Faults: fewer than two counted, no eggs, and *no more
 * spread than chance* (s² ≤ m with one factor, or k beyond a million), where there is no k.
 *
 * Source: maximum likelihood, elementary; values checked against R. A finite k exists only when the
 * variance is above the mean: Levin & Reeds 1977, Ann Statist 5:79–87 (memory).
 */
export function aggregation(
  eggs: readonly (number | null)[],
  factors: Factors = 1,
): number | Fault {
  const counted = countedAnimals(eggs, factors);
  if (isFault(counted)) return counted;
  const few = checkSpread(counted.eggs);
  if (few) return few;
  const herd = countGroups(counted);
  if (herd.groups.length === 1 && variance(counted.eggs) <= mean(counted.eggs)) return noSpread();
  const { k } = fitNegativeBinomial(herd);
  return k === Infinity ? noSpread() : k;
}

/**
 * k by moments, m²/(s² − m) of the raw counts (divisor n − 1): the quick form, shown beside the other.
 * It is meant for one factor for all. Rules and faults as `aggregation`.
 *
 * Source: Anscombe 1950, Biometrika 37:358–382 (memory).
 */
export function aggregationByMoments(eggs: readonly (number | null)[]): number | Fault {
  const counted = countedAnimals(eggs, 1);
  if (isFault(counted)) return counted;
  const few = checkSpread(counted.eggs);
  if (few) return few;
  const m = mean(counted.eggs);
  const excess = variance(counted.eggs) - m;
  return excess <= 0 ? noSpread() : (m * m) / excess;
}

/** Variance over mean of the raw counts (1 for pure counting luck). Fault: fewer than two counted, no eggs. */
export function dispersionIndex(eggs: readonly (number | null)[]): number | Fault {
  const counted = countedAnimals(eggs, 1);
  if (isFault(counted)) return counted;
  return checkSpread(counted.eggs) ?? variance(counted.eggs) / mean(counted.eggs);
}

function checkSpread(eggs: readonly number[]): Fault | null {
  if (eggs.length < 2) {
    return fault('too-few', say('At least 2 animals must be counted to see how they differ.'));
  }
  if (eggs.some((seen) => seen > 0)) return null;
  return fault(
    'no-eggs',
    say('No eggs were found in any animal, so there is no spread to work out.'),
  );
}

function noSpread(): Fault {
  return fault(
    'no-spread',
    say('The counts differ no more than chance alone would make them, so there is no k to give.'),
  );
}
