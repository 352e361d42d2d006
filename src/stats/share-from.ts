import { fault, isFault, type Fault } from '../../shared/value.ts';
import { atLeast } from './at-least.ts';
import { knownValues } from './known-values.ts';
import { say } from '../text/say.ts';

/**
 * Share (0 to 1) of the animals counted whose epg is at the limit or more. Units: both in epg. Missing
 * animals are left out of both numbers. Inclusive, relative tolerance 1e-9. Faults: nobody counted, a
 * limit that is no number.
 *
 * Source: elementary.
 */
export function shareFrom(epgs: readonly (number | null)[], limit: number): number | Fault {
  if (!Number.isFinite(limit)) return fault('bad-limit', say('The limit must be a number.'));
  const known = knownValues(epgs);
  if (isFault(known)) return known;
  return known.filter((value) => atLeast(value, limit)).length / known.length;
}
