import { fault, isFault, type Fault } from '../../shared/value.ts';
import { atLeast } from './at-least.ts';
import { rankedValues } from './known-values.ts';
import { say } from '../text/say.ts';

/** "5 of 19 animals shed 80 % of the eggs": `animals` of `counted`. */
export interface ShedderCount {
  readonly animals: number;
  readonly counted: number;
}

/**
 * The smallest number of animals that shed `eggShare` (0.8) of the eggs, highest epg first, out of those
 * counted. Per gram of dung, not per day. Unit: epg of each animal (or any figure in proportion to it).
 * Missing animals are left out. Reached counts as reached (relative tolerance 1e-9).
 * Faults: nobody counted, no eggs at all (nothing to share out), a share outside 0 to 1.
 *
 * Source: own definition; "20 % of the herd lay 80 % of the eggs" is a rule of thumb of extension pages (read).
 */
export function shedderCount(
  epgs: readonly (number | null)[],
  eggShare = 0.8,
): ShedderCount | Fault {
  const herd = checkShare(eggShare, 'eggs') ?? rankedValues(epgs);
  if (isFault(herd)) return herd;
  let running = 0;
  let animals = 0;
  for (const value of herd.ranked) {
    running += value;
    animals += 1;
    if (atLeast(running, eggShare * herd.total)) break;
  }
  return { animals, counted: herd.ranked.length };
}

/** `shedderCount` as a share of the animals counted, 0 to 1. Same rules and faults. */
export function shedderShare(epgs: readonly (number | null)[], eggShare = 0.8): number | Fault {
  const count = shedderCount(epgs, eggShare);
  return isFault(count) ? count : count.animals / count.counted;
}

/** `null` when a share can be asked for: above 0, at most 1. */
export function checkShare(share: number, of: 'eggs' | 'animals'): Fault | null {
  if (share > 0 && share <= 1) return null;
  return fault(
    'bad-share',
    of === 'eggs'
      ? say('The share of the eggs must lie between 0 and 1: write 0.8 for 80 %.')
      : say('The share of the animals must lie between 0 and 1: write 0.8 for 80 %.'),
  );
}
