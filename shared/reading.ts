/** Units a weight can be typed in. Formulas always receive kilograms. */
export type WeightUnit = 'kg' | 'lb';

/**
 * What a person typed in one cell, kept for ever as `text`, with what it means.
 *
 * - `number`: a finite number; for a part of the grid (`3/6`) the fraction; a weight keeps its unit.
 * - `over` / `under`: a bound (`>40` means at least 41, `<5` at most 4); never a number in a mean.
 * - `too-many`: more eggs than could be counted, no bound given.
 * - `tick`: a sign seen (`true`) or looked for and not seen (`false`).
 * - `text`: words, a choice, a status.
 * - `fault`: could not be read as this column's kind; stays visible with its reason.
 */
export type Reading =
  | {
      readonly kind: 'number';
      readonly text: string;
      readonly value: number;
      readonly unit?: WeightUnit;
    }
  | { readonly kind: 'over'; readonly text: string; readonly value: number }
  | { readonly kind: 'under'; readonly text: string; readonly value: number }
  | { readonly kind: 'too-many'; readonly text: string }
  | { readonly kind: 'tick'; readonly text: string; readonly value: boolean }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'fault'; readonly text: string; readonly reason: string };
