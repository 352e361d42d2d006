import { fault, isFault, type Fault } from '../../shared/value.ts';
import { checkPositive } from './input-check.ts';
import { SUGAR_DENSITY, type SugarRow } from './sugar-density.ts';
import { say } from '../text/say.ts';

/** Grams in one mL of water at 20 °C; densities over this are specific gravities 20/20. */
export const WATER_G_PER_ML = 0.99823;
/** Density of water at 20 °C, kg/m³: the first row of the table. */
const WATER_DENSITY = 998.23;

/** A sugar solution as the table sees it; `status` is 'memory' where a row from memory had a part in it. */
export interface Syrup {
  /** Grams of sugar in 100 g of solution. */
  readonly massPercent: number;
  /** Specific gravity 20/20. */
  readonly specificGravity: number;
  readonly status: SugarRow['status'];
}

/**
 * The syrup that `sugarG` grams of sugar in `waterMl` mL of water (measured before mixing) give.
 *
 * mass % = 100·s/(s + 0.99823·w); density at 20 °C linear between table rows, over 998.23. Units: g, mL at 20 °C.
 * Faults: sugar negative, water not above 0, more than 70 % sugar (beyond the table, and more than stays dissolved).
 *
 * Source: density table, see `SUGAR_DENSITY`; arithmetic.
 */
export function syrup(sugarG: number, waterMl: number): Syrup | Fault {
  const wrong = checkPositive(waterMl, () => say('The mL of water must be more than 0.'));
  if (wrong) return wrong;
  if (!(Number.isFinite(sugarG) && sugarG >= 0)) {
    return fault('bad-amount', say('The grams of sugar must be 0 or more.'));
  }
  const massPercent = (100 * sugarG) / (sugarG + WATER_G_PER_ML * waterMl);
  const between = rowsRound((row) => row.massPercent, massPercent);
  if (!between) {
    return fault(
      'too-much-sugar',
      say(
        'That is {percent} % sugar: the table ends at 70 %, and so much does not stay dissolved.',
        {
          percent: Math.round(massPercent),
        },
      ),
    );
  }
  const [below, above] = between;
  const part = fraction(below.massPercent, above.massPercent, massPercent);
  const density = below.density + part * (above.density - below.density);
  return {
    massPercent,
    specificGravity: density / WATER_DENSITY,
    status: statusOf(below, above, part),
  };
}

/** Specific gravity 20/20 of a sugar solution. Rules and faults as `syrup`. */
export function syrupGravity(sugarG: number, waterMl: number): number | Fault {
  const made = syrup(sugarG, waterMl);
  return isFault(made) ? made : made.specificGravity;
}

/**
 * Grams of sugar to dissolve in `waterMl` mL of water for a wanted specific gravity 20/20: the way back of
 * `syrup`. Faults: water not above 0, a gravity outside the table (1 to 1.349).
 *
 * Source: as `syrup`. For 1.20: 44.1 % or 788 g per litre of water.
 */
export function sugarFor(specificGravity: number, waterMl: number): number | Fault {
  const wrong =
    checkPositive(specificGravity, () => say('The specific gravity must be more than 0.')) ??
    checkPositive(waterMl, () => say('The mL of water must be more than 0.'));
  if (wrong) return wrong;
  const gravityOf = (row: SugarRow): number => row.density / WATER_DENSITY;
  const between = rowsRound(gravityOf, specificGravity);
  if (!between) {
    return fault(
      'bad-gravity',
      say(
        'Sugar and water make specific gravities from 1 to 1.34: choose one between, such as 1.20.',
      ),
    );
  }
  const [below, above] = between;
  const part = fraction(gravityOf(below), gravityOf(above), specificGravity);
  const massPercent = below.massPercent + part * (above.massPercent - below.massPercent);
  return (massPercent / (100 - massPercent)) * WATER_G_PER_ML * waterMl;
}

function rowsRound(of: (row: SugarRow) => number, value: number): [SugarRow, SugarRow] | null {
  for (const [i, above] of SUGAR_DENSITY.entries()) {
    const below = SUGAR_DENSITY[i - 1];
    if (below && value >= of(below) && value <= of(above)) return [below, above];
  }
  return null;
}

function fraction(from: number, to: number, value: number): number {
  return (value - from) / (to - from);
}

function statusOf(below: SugarRow, above: SugarRow, part: number): SugarRow['status'] {
  const fromMemory =
    (part < 1 && below.status === 'memory') || (part > 0 && above.status === 'memory');
  return fromMemory ? 'memory' : 'seen';
}
