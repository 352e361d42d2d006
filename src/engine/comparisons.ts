import { CellError } from 'hyperformula';
import { fault } from '../../shared/value.ts';
import { atLeast, TOLERANCE } from '../stats/at-least.ts';
import { toCellError } from './cell-faults.ts';
import { known, type EngineValue } from './engine-values.ts';
import type { Operator } from './syntax.ts';
import { say } from '../text/say.ts';

/**
 * The comparisons of the formula language. Limits are inclusive: 500.0000000000001 and 500 are the same
 * (relative tolerance 1e-9), so `epg >= 500` holds at 500 and `epg > 500` does not. Texts compare without
 * regard to capitals. Values of different kinds are a fault: in spreadsheets text is greater than every number.
 */
export const COMPARISONS: Readonly<Partial<Record<Operator, string>>> = {
  '>=': 'ATLEAST',
  '<=': 'ATMOST',
  '>': 'ABOVE',
  '<': 'BELOW',
  '=': 'SAMEAS',
  '<>': 'OTHERTHAN',
};

const holds: Readonly<Record<string, (order: number) => boolean>> = {
  ATLEAST: (order) => order >= 0,
  ATMOST: (order) => order <= 0,
  ABOVE: (order) => order > 0,
  BELOW: (order) => order < 0,
  SAMEAS: (order) => order === 0,
  OTHERTHAN: (order) => order !== 0,
};

export const COMPARISON_NAMES: readonly string[] = Object.keys(holds);

/** Whether the comparison holds, or the error that keeps it from being answered. */
export function compare(name: string, left: EngineValue, right: EngineValue): boolean | CellError {
  const a = known(left);
  if (a instanceof CellError) return a;
  const b = known(right);
  if (b instanceof CellError) return b;
  const order = orderOf(a, b);
  if (order === null) return differentKinds(a, b);
  return holds[name]?.(order) ?? false;
}

type Plain = number | string | boolean;

/** Below 0, 0 or above 0 as `a` is less, the same or more; null for values of different kinds. */
export function orderOf(a: Plain, b: Plain): number | null {
  if (typeof a === 'number' && typeof b === 'number') {
    if (Math.abs(a - b) <= TOLERANCE * Math.max(Math.abs(a), Math.abs(b))) return 0;
    return atLeast(a, b) ? 1 : -1;
  }
  if (typeof a === 'string' && typeof b === 'string') {
    const [x, y] = [a.toLowerCase(), b.toLowerCase()];
    return x < y ? -1 : x > y ? 1 : 0;
  }
  return typeof a === 'boolean' && typeof b === 'boolean' ? Number(a) - Number(b) : null;
}

function differentKinds(a: Plain, b: Plain): CellError {
  return toCellError(
    fault(
      'different-kinds',
      say(
        '{leftIs, select, string {The text “{left}”} number {The number {left}} other {{left}}} cannot be compared with {rightIs, select, string {the text “{right}”} number {the number {right}} other {{right}}}. Compare like with like.',
        { leftIs: typeof a, left: shown(a), rightIs: typeof b, right: shown(b) },
      ),
    ),
  );
}

function shown(value: Plain): string | number {
  return typeof value === 'boolean' ? (value ? 'TRUE' : 'FALSE') : value;
}
