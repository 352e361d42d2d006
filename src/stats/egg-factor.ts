import type { Fault } from '../../shared/value.ts';
import { exact, product, quotient, sum, toNumber } from './exact-decimal.ts';
import { checkNotNegative, checkPositive } from './input-check.ts';
import { say } from '../text/say.ts';

/**
 * Multiplication factor: how many eggs per gram one egg under the microscope stands for.
 *
 * factor = (fluid added + grams as mL) ÷ (grams × mL of one area × areas counted). Units: g of dung, mL of
 * fluid *added*, mL under one grid, number of areas (two half grids are 1). Dung counts as 1 mL per gram.
 * Worked in exact decimals: `eggFactor(2, 28, 0.15, 2)` is 50. Missing: ask only with all four known.
 * Faults: grams, area or areas not above 0, fluid negative. A method with a concentrating step cannot be
 * worked out this way: there the factor is typed.
 *
 * Source: dilution arithmetic as in the FAO/RVC guide (3 g + 42 mL, two grids of 0.15 mL: 50) and Cork &
 * Lejeune, Veterinary Laboratory and Field Manual, 3rd ed., p. 120 (3 g in 45 mL, one grid: 100); both read.
 */
export function eggFactor(
  grams: number,
  fluidMl: number,
  areaMl: number,
  areas: number,
): number | Fault {
  const wrong =
    checkPositive(grams, () => say('The grams of dung must be more than 0.')) ??
    checkNotNegative(fluidMl, () => say('The mL of fluid added must be 0 or more.')) ??
    checkPositive(areaMl, () => say('The mL under one counted area must be more than 0.')) ??
    checkPositive(areas, () => say('The number of areas counted must be more than 0.'));
  if (wrong) return wrong;
  const weight = exact(grams);
  const counted = product(product(weight, exact(areaMl)), exact(areas));
  return toNumber(quotient(sum(exact(fluidMl), weight), counted));
}
