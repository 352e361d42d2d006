import { isFault, type Fault } from '../../shared/value.ts';
import { countedAnimals, type Factors } from './counted-animals.ts';
import { countedMeanLimits } from './counted-mean-limits.ts';
import { herdMeanLimits, type HerdMeanLimits } from './herd-mean-limits.ts';
import { mean } from './herd-mean.ts';
import type { Limits } from './limits.ts';

/** The mean with its two kinds of limits, each for its own question. All in epg. */
export interface MeanSureness {
  readonly mean: number;
  readonly counted: number;
  /** "These animals", counting luck only. */
  readonly these: Limits | Fault;
  /** "A herd they were drawn from", counting luck and the differences between animals. */
  readonly herd: HerdMeanLimits | Fault;
  /** The question that was most likely meant: these animals, when all present were counted. */
  readonly asked: 'these' | 'herd';
}

/**
 * Both limits of the mean epg, and which of them answers the question at hand: when every animal present
 * was counted there is no herd beyond them to guess at.
 *
 * Units: raw eggs, factors epg per egg. `present` is how many animals were there. Missing animals are left
 * out. Fault: nobody counted. Sources: see `countedMeanLimits` and `herdMeanLimits`.
 */
export function meanSureness(
  eggs: readonly (number | null)[],
  factors: Factors,
  present: number,
  level = 0.95,
): MeanSureness | Fault {
  const herd = countedAnimals(eggs, factors);
  if (isFault(herd)) return herd;
  const counted = herd.eggs.length;
  return {
    mean: mean(herd.eggs.map((seen, i) => seen * (herd.factors[i] ?? NaN))),
    counted,
    these: countedMeanLimits(eggs, factors, level),
    herd: herdMeanLimits(eggs, factors, level),
    asked: counted >= present ? 'these' : 'herd',
  };
}
