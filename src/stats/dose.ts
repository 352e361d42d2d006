import { fault, type Fault } from '../../shared/value.ts';
import { TOLERANCE } from './at-least.ts';
import {
  ceiling,
  compare,
  exact,
  product,
  quotient,
  sum,
  toNumber,
  type ExactDecimal,
} from './exact-decimal.ts';
import { checkPositive } from './input-check.ts';
import { writeNumber, type DecimalMark } from '../text/decimal-text.ts';
import { say } from '../text/say.ts';

/** Rounding up to the syringe's step may add at most this share of the dose (own choice). */
export const MOST_ADDED = 0.1;

/**
 * Dose volume in mL by strength: kg × mg/kg ÷ mg/mL, rounded up to the step of the syringe where one is given.
 *
 * Units: kg, mg per kg, mg per mL, mL. Worked in exact decimals, so 3 kg × 0.4 ÷ 0.8 on 0.25 mL is 1.5 and not
 * 1.75; a dose within 1e-9 above a step counts as on it. Missing: no weight, no dose; never guess one.
 * Faults: anything not above 0; a step that would add more than 10 % ("use a finer syringe"). The figures
 * come from the label or the vet: follow them, and goats often need other doses than sheep. `mark` is that of
 * the decimals in a fault's sentence.
 *
 * Source: arithmetic; rounding up, because under-dosing breeds resistance (common practice, no source).
 */
export function doseMl(
  kg: number,
  mgPerKg: number,
  mgPerMl: number,
  stepMl?: number,
  mark: DecimalMark = '.',
): number | Fault {
  const wrong =
    checkPositive(kg, () => say('The weight in kg must be more than 0.')) ??
    checkPositive(mgPerKg, () => say('The mg per kg must be more than 0.')) ??
    checkPositive(mgPerMl, () => say('The mg per mL must be more than 0.'));
  if (wrong) return wrong;
  return onStep(quotient(product(exact(kg), exact(mgPerKg)), exact(mgPerMl)), stepMl, mark);
}

/**
 * Dose volume in mL by the label: `ml` for every `perKg` kg (1 mL per 5 kg), rounded up to the step of the syringe.
 * Rules, faults and source as `doseMl`.
 */
export function doseByLabel(
  kg: number,
  ml: number,
  perKg: number,
  stepMl?: number,
  mark: DecimalMark = '.',
): number | Fault {
  const wrong =
    checkPositive(kg, () => say('The weight in kg must be more than 0.')) ??
    checkPositive(ml, () => say('The mL of the label must be more than 0.')) ??
    checkPositive(perKg, () => say('The kg that the label names must be more than 0.'));
  if (wrong) return wrong;
  return onStep(quotient(product(exact(kg), exact(ml)), exact(perKg)), stepMl, mark);
}

function onStep(dose: ExactDecimal, stepMl: number | undefined, mark: DecimalMark): number | Fault {
  if (stepMl === undefined) return toNumber(dose);
  const wrong = checkPositive(stepMl, () =>
    say('The step of the syringe in mL must be more than 0.'),
  );
  if (wrong) return wrong;
  const step = exact(stepMl);
  const slack = exact(1 - TOLERANCE);
  const steps = ceiling(quotient(product(dose, slack), step));
  const drawn = product({ over: steps, under: 1n }, step);
  const most = product(dose, sum(exact(1), exact(MOST_ADDED)));
  if (compare(drawn, most) <= 0) return toNumber(drawn);
  return fault(
    'coarse-syringe',
    say(
      'The dose is {dose} mL and the syringe steps by {step} mL: rounding up would add more than 10 %. Use a finer syringe.',
      { dose: shown(dose, mark), step: writeNumber(stepMl, mark) },
    ),
  );
}

function shown(dose: ExactDecimal, mark: DecimalMark): string {
  return writeNumber(Number(toNumber(dose).toPrecision(3)), mark);
}
