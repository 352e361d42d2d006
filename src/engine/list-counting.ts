import { CellError } from 'hyperformula';
import { fault } from '../../shared/value.ts';
import { toCellError } from './cell-faults.ts';
import { orderOf } from './comparisons.ts';
import {
  entries,
  isMissing,
  known,
  type EngineValue,
  type Args,
  type Scalar,
} from './engine-values.ts';
import { say } from '../text/say.ts';

type Test = (entry: number | string | boolean) => boolean;

/**
 * Counting that leaves missing entries out: a spreadsheet's own COUNTIF takes an empty cell for 0, and an
 * animal that was not counted would be one without eggs.
 */
export function countIf(args: Args): number | CellError {
  const lists: (readonly Scalar[])[] = [];
  const tests: Test[] = [];
  for (let i = 0; i + 1 < args.count; i += 2) {
    lists.push(entries(args.at(i)));
    const wanted = known(args.at(i + 1));
    if (wanted instanceof CellError) return wanted;
    tests.push(testOf(wanted));
  }
  const length = lists[0]?.length ?? 0;
  if (lists.some((list) => list.length !== length)) {
    return toCellError(
      fault('unequal-lists', say('The lists of COUNTIFS must be of the same animals.')),
    );
  }
  let count = 0;
  for (let i = 0; i < length; i++) {
    const row = lists.map((list) => known(list[i] ?? ''));
    const error = row.find(
      (entry, j) => entry instanceof CellError && !isMissing(lists[j]?.[i] ?? ''),
    );
    if (error instanceof CellError) return error;
    if (row.every((entry, j) => !(entry instanceof CellError) && tests[j]?.(entry) === true))
      count++;
  }
  return count;
}

/** `4`, `"lambs"`, `TRUE`, or a comparison in quotes: `">=4"`, `"<>lambs"`. */
function testOf(wanted: number | string | boolean): Test {
  if (typeof wanted !== 'string') return (entry) => orderOf(entry, wanted) === 0;
  const [, sign = '=', rest = ''] = /^(<>|<=|>=|<|>|=)?(.*)$/s.exec(wanted) ?? [];
  const number = rest.trim() === '' ? NaN : Number(rest);
  const truth = /^(true|false)$/i.test(rest) ? /^true$/i.test(rest) : null;
  return (entry) => {
    const aim =
      typeof entry === 'number'
        ? number
        : typeof entry === 'boolean' && truth !== null
          ? truth
          : rest;
    const order = Number.isNaN(aim) ? null : orderOf(entry, aim);
    // A value of another kind is neither less nor more, but it is another one.
    if (order === null) return sign === '<>';
    if (sign === '<>') return order !== 0;
    if (sign === '=') return order === 0;
    if (sign.includes('=') && order === 0) return true;
    return sign.startsWith('<') ? order < 0 : order > 0;
  };
}

/** Entries with nothing in them; of `present` where given, a list that holds something for each present. */
export function countBlank(list: EngineValue, present: EngineValue | null): number {
  const here = present === null ? null : entries(present);
  return entries(list).filter(
    (entry, i) => isMissing(entry) && (here === null || !isMissing(here[i] ?? '')),
  ).length;
}

/** Different known values; texts without regard to capitals, numbers within the usual tolerance. */
export function countUnique(lists: readonly EngineValue[]): number | CellError {
  const seen = new Set<string>();
  for (const list of lists) {
    for (const entry of entries(list)) {
      if (isMissing(entry)) continue;
      const value = known(entry);
      if (value instanceof CellError) return value;
      seen.add(
        typeof value === 'number'
          ? `number ${Number(value.toPrecision(10))}`
          : `${typeof value} ${String(value).toLowerCase()}`,
      );
    }
  }
  return seen.size;
}
