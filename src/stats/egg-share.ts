import { isFault, type Fault } from '../../shared/value.ts';
import { TOLERANCE } from './at-least.ts';
import { rankedValues } from './known-values.ts';
import { checkShare } from './shedder-share.ts';

/**
 * Share of the eggs (0 to 1) that the top `animalShare` (0.2) of the animals counted shed: epg of the top
 * ceil(share × n) animals over the epg of all. Per gram of dung. Missing animals are left out. Faults: nobody
 * counted, no eggs at all, a share outside 0 to 1.
 *
 * Source: the share as used in published goat tests (Univ. Maryland 2015, read): rank by epg, add up the
 * top, divide by the sum. Rounding the number of animals up is our own choice.
 */
export function eggShare(epgs: readonly (number | null)[], animalShare = 0.2): number | Fault {
  const herd = checkShare(animalShare, 'animals') ?? rankedValues(epgs);
  if (isFault(herd)) return herd;
  const top = Math.ceil(animalShare * herd.ranked.length * (1 - TOLERANCE));
  return herd.ranked.slice(0, top).reduce((sum, value) => sum + value, 0) / herd.total;
}
