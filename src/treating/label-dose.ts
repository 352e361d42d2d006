import type { Product } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { atLeast } from '../stats/at-least.ts';
import { doseByLabel, doseMl } from '../stats/dose.ts';
import { writeNumber, type DecimalMark } from '../text/decimal-text.ts';
import { kgPerLb } from '../text/parse-reading.ts';
import { shortNumber } from './short-number.ts';
import { say } from '../text/say.ts';

/** The label's line and its strength may differ by this share before one of them is a slip. */
export const MOST_LABEL_GAP = 0.1;

/** Which of the label's two ways was used: its own line (first), or strength and mg per kg. */
export type LabelBasis = 'line' | 'strength';

/** The way that a product's typed facts allow; `null` when neither is complete. */
export function labelBasis(product: Product): LabelBasis | null {
  if (product.labelMl !== undefined && product.labelPer !== undefined) return 'line';
  if (product.mgPerKg !== undefined && product.mgPerMl !== undefined) return 'strength';
  return null;
}

/**
 * mL by the label for a weight in kg, rounded up to the step of the syringe where one is given. The
 * label's own line comes first, strength and mg/kg second. Faults: neither typed, an amount of 0 or
 * less, a syringe too coarse.
 */
export function labelDose(
  product: Product,
  kg: number,
  stepMl?: number,
  mark?: DecimalMark,
): number | Fault {
  switch (labelBasis(product)) {
    case 'line':
      return doseByLabel(kg, product.labelMl ?? NaN, labelPerKg(product), stepMl, mark);
    case 'strength':
      return doseMl(kg, product.mgPerKg ?? NaN, product.mgPerMl ?? NaN, stepMl, mark);
    case null:
      return fault(
        'no-strength',
        say("No strength: type the label's line, mL per kg, or its strength with mg per kg."),
      );
  }
}

/** The sum in words, for "show the sum": `42 kg × 1 mL ÷ 5 kg`. */
export function labelSum(product: Product, kg: number, mark: DecimalMark = '.'): string {
  const typed = (value: number | undefined): string => writeNumber(value ?? NaN, mark);
  const unit = product.labelUnit ?? 'kg';
  const weight = unit === 'lb' ? kg / kgPerLb : kg;
  if (labelBasis(product) === 'line')
    return `${shortNumber(weight, 2, mark)} ${unit} × ${typed(product.labelMl)} mL ÷ ${typed(product.labelPer)} ${unit}`;
  return `${shortNumber(kg, 2, mark)} kg × ${typed(product.mgPerKg)} mg/kg ÷ ${typed(product.mgPerMl)} mg/mL`;
}

/** A sentence where the label's line and its strength give doses over 10 % apart; `null` otherwise. */
export function labelStrengthGap(product: Product, mark: DecimalMark = '.'): string | null {
  const { labelMl, labelPer, mgPerKg, mgPerMl } = product;
  if (labelMl === undefined || labelPer === undefined) return null;
  if (mgPerKg === undefined || mgPerMl === undefined) return null;
  const byLine = doseByLabel(100, labelMl, labelPerKg(product));
  const byStrength = doseMl(100, mgPerKg, mgPerMl);
  if (isFault(byLine) || isFault(byStrength)) return null;
  const [small, large] = byLine < byStrength ? [byLine, byStrength] : [byStrength, byLine];
  if (atLeast((1 + MOST_LABEL_GAP) * small, large)) return null;
  return say(
    "For 100 kg the label's line gives {byLine} mL and its strength {byStrength} mL: one of them was typed wrongly. Read the label again.",
    { byLine: shortNumber(byLine, 2, mark), byStrength: shortNumber(byStrength, 2, mark) },
  );
}

function labelPerKg(product: Product): number {
  const per = product.labelPer ?? NaN;
  return product.labelUnit === 'lb' ? per * kgPerLb : per;
}
