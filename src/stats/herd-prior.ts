import { isFault } from '../../shared/value.ts';
import { aggregation } from './aggregation.ts';
import { countedAnimals, type Factors } from './counted-animals.ts';
import { mean } from './herd-mean.ts';
import type { HerdPrior } from './over-chance.ts';

/** With fewer animals counted the herd says too little of any one of them (own choice). */
export const FEWEST_FOR_PRIOR = 10;

/** What a chance over a limit was worked out with: the herd's own spread, or flat and why. */
export type PriorFound =
  | { readonly is: 'herd'; readonly prior: HerdPrior; readonly counted: number }
  | {
      readonly is: 'flat';
      readonly counted: number;
      readonly because: 'few counted' | 'no eggs' | 'no spread';
    };

/**
 * The herd's own spread as a prior for `overChance`: k by maximum likelihood and the arithmetic mean of the
 * day, where 10 or more are counted and differ more than chance alone would make them; else flat.
 *
 * Units: raw eggs, factors in epg per egg, mean in epg. Missing animals are left out. A list that holds
 * nonsense counts as nobody counted. Source: own choice of the limit of 10; see `overChance`.
 */
export function herdPrior(eggs: readonly (number | null)[], factors: Factors): PriorFound {
  const herd = countedAnimals(eggs, factors);
  if (isFault(herd)) return { is: 'flat', counted: 0, because: 'few counted' };
  const counted = herd.eggs.length;
  if (counted < FEWEST_FOR_PRIOR) return { is: 'flat', counted, because: 'few counted' };
  const meanEpg = mean(herd.eggs.map((seen, i) => seen * (herd.factors[i] ?? NaN)));
  if (meanEpg === 0) return { is: 'flat', counted, because: 'no eggs' };
  const k = aggregation(herd.eggs, herd.factors);
  if (isFault(k)) return { is: 'flat', counted, because: 'no spread' };
  return { is: 'herd', prior: { k, meanEpg }, counted };
}
