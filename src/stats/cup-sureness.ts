import { isFault, type Fault } from '../../shared/value.ts';
import { CHAMBERS_DISAGREE_BELOW, chamberGap } from './chamber-gap.ts';
import { epg } from './epg.ts';
import type { PriorFound } from './herd-prior.ts';
import type { Limits } from './limits.ts';
import { overChance } from './over-chance.ts';
import { epgHigh, epgLow, noEggLimit } from './poisson-limits.ts';

/** One grid of a cup: eggs seen and the part of it that was counted. */
export interface Chamber {
  readonly eggs: number;
  readonly part: number;
}

/** One cup as counted. */
export interface CountedCup {
  /** Eggs seen in all that was counted. */
  readonly eggs: number;
  /** epg that one egg stands for. */
  readonly factor: number;
  readonly chambers: readonly Chamber[];
}

/** How sure the epg of one cup is. All in epg unless said. */
export interface CupSureness {
  readonly epg: number;
  readonly factor: number;
  /** 95 % limits, counting luck only; null when no egg was seen. */
  readonly limits: Limits | null;
  /** No egg seen: probably under this (one-sided 95 %); null when eggs were seen. */
  readonly under: number | null;
  /** Chance (0 to 1) that it is at the limit or more; null where no limit is set. */
  readonly over: { readonly limit: number; readonly chance: number } | null;
  /** p that luck alone parts two chambers so far, and whether that is too little; null with one chamber. */
  readonly chambers: { readonly p: number; readonly agree: boolean } | null;
}

/**
 * All that can be said about one count: limits (Garwood 1936, see `epgLow`), the chance to be at `limit` or
 * more with the prior found for the herd, and whether the first two chambers agree at p ≥ 0.01.
 *
 * Missing: ask only of a cup that was counted. Faults: eggs not whole, factor not above 0.
 */
export function cupSureness(
  cup: CountedCup,
  limit: number | undefined,
  prior: PriorFound,
): CupSureness | Fault {
  const { eggs, factor } = cup;
  const value = epg(eggs, factor);
  const low = epgLow(eggs, factor);
  const high = epgHigh(eggs, factor);
  const most = noEggLimit();
  if (isFault(value)) return value;
  if (isFault(low)) return low;
  if (isFault(high)) return high;
  if (isFault(most)) return most;
  const chance =
    limit === undefined || limit <= 0
      ? null
      : overChance(eggs, factor, limit, prior.is === 'herd' ? prior.prior : undefined);
  return {
    epg: value,
    factor,
    limits: eggs > 0 ? { low, high } : null,
    under: eggs > 0 ? null : most * factor,
    over: chance === null || isFault(chance) || limit === undefined ? null : { limit, chance },
    chambers: agreement(cup.chambers),
  };
}

function agreement(chambers: readonly Chamber[]): CupSureness['chambers'] {
  const [first, second] = chambers;
  if (!first || !second || chambers.length > 2) return null;
  const p = chamberGap(first.eggs, second.eggs, first.part, second.part);
  return isFault(p) ? null : { p, agree: p >= CHAMBERS_DISAGREE_BELOW };
}
