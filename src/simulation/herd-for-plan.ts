import { isFault, type Fault } from '../../shared/value.ts';
import { aggregation } from '../stats/aggregation.ts';
import { countedAnimals } from '../stats/counted-animals.ts';
import { mean } from '../stats/herd-mean.ts';

/** With fewer counted, k is little more than a guess (own choice). */
export const FEWEST_FOR_K = 10;

/** What a herd's own counts give a plan. */
export interface HerdForPlan {
  readonly counted: number;
  /** Arithmetic mean, epg. */
  readonly meanEpg: number;
  /** Infinity where the animals differ no more than chance alone would make them. */
  readonly k: number;
  /** The factor most of them were counted with, epg per egg; the greater of two as common. */
  readonly factor: number;
}

/**
 * The herd's mean, k and usual factor from one day's counts. Units: raw eggs, factors in epg per egg. Animals
 * without a count or a factor are left out. Faults: nobody counted, only one, no eggs, a count that is none.
 * Source: as `aggregation`.
 */
export function herdForPlan(
  eggs: readonly (number | null)[],
  factors: readonly (number | null)[],
): HerdForPlan | Fault {
  const herd = countedAnimals(eggs, factors);
  if (isFault(herd)) return herd;
  const k = aggregation(herd.eggs, herd.factors);
  if (isFault(k) && k.fault !== 'no-spread') return k;
  return {
    counted: herd.eggs.length,
    meanEpg: mean(herd.eggs.map((seen, row) => seen * (herd.factors[row] ?? NaN))),
    k: isFault(k) ? Infinity : k,
    factor: mostCommon(herd.factors),
  };
}

function mostCommon(factors: readonly number[]): number {
  const times = new Map<number, number>();
  for (const factor of factors) times.set(factor, (times.get(factor) ?? 0) + 1);
  const [most] = [...times].sort(([a, often], [b, rare]) => rare - often || b - a);
  return most?.[0] ?? NaN;
}
