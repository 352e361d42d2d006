import { fault, type Fault } from '../../shared/value.ts';
import { say } from '../text/say.ts';

/** Added to what the doses add up to, for what the gun and the container keep (own choice, editable). */
export const TOTAL_MARGIN = 0.1;

/** What to have ready for a round of doses. */
export interface DoseTotal {
  /** The doses added up, in mL, and the same with the margin. */
  readonly ml: number;
  readonly withMarginMl: number;
  /** Animals with a dose, of all asked about: the rest had a stop. */
  readonly dosed: number;
  readonly of: number;
}

/**
 * Adds up doses in mL; `null` (a stop) is left out and counted. `margin` is a share: 0.1 for 10 %.
 * Faults: a margin below 0 or above 1; no dose at all.
 */
export function doseTotal(
  doses: readonly (number | null)[],
  margin = TOTAL_MARGIN,
): DoseTotal | Fault {
  if (!(margin >= 0 && margin <= 1))
    return fault('bad-margin', say('The margin goes from 0 to 100 %: write 10 for a tenth more.'));
  const given = doses.filter((dose) => dose !== null);
  if (given.length === 0) return fault('no-doses', say('No dose could be worked out yet.'));
  const ml = atMicrolitre(given.reduce((sum, dose) => sum + dose, 0));
  const withMarginMl = atMicrolitre(ml * (1 + margin));
  return { ml, withMarginMl, dosed: given.length, of: doses.length };
}

/** Takes off the dust that adding binary fractions leaves. */
function atMicrolitre(ml: number): number {
  return Number(ml.toFixed(6));
}
