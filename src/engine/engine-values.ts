import { CellError, EmptyValue, SimpleRangeValue } from 'hyperformula';
import { fault } from '../../shared/value.ts';
import { noAnswer, toCellError } from './cell-faults.ts';
import { say } from '../text/say.ts';

/** One value as the calculating engine passes it about, and a value or a whole list. */
export type Scalar = SimpleRangeValue['data'][number][number];
export type EngineValue = Scalar | SimpleRangeValue;

/** The arguments of a call, none worked out yet: asking for one evaluates it. */
export interface Args {
  readonly count: number;
  /** An argument that was left out is missing. */
  at(index: number): EngineValue;
}

/** All arguments from one on, worked out. */
export function argsFrom(args: Args, first: number): readonly EngineValue[] {
  return Array.from({ length: Math.max(0, args.count - first) }, (_, i) => args.at(first + i));
}

/** Nothing there: an empty cell, or a formula's `""`. */
export function isMissing(value: EngineValue): boolean {
  return value === EmptyValue || value === '';
}

/** The entries of lists by an own way of reading them, and once they were read. */
const readers = new WeakMap<SimpleRangeValue, () => readonly Scalar[]>();
const read = new WeakMap<SimpleRangeValue, readonly Scalar[]>();

/**
 * Has the entries of a list read in a way of our own. The engine's makes an object for the address of every cell
 * and an array for every row, which for 10,000 animals costs ten times what reading them does.
 */
export function readBy(list: SimpleRangeValue, reader: () => readonly Scalar[]): SimpleRangeValue {
  readers.set(list, reader);
  return list;
}

/** The entries of a list, row by row; a single value is a list of one. */
export function entries(value: EngineValue): readonly Scalar[] {
  if (!(value instanceof SimpleRangeValue)) return [value];
  let found = read.get(value);
  if (!found) {
    found = readers.get(value)?.() ?? value.valuesFromTopLeftCorner();
    read.set(value, found);
  }
  return found;
}

/** A list of one column from its entries. */
export function listOf(found: readonly Scalar[]): SimpleRangeValue {
  const list = SimpleRangeValue.onlyValues(found.map((entry) => [entry]));
  read.set(list, found);
  return list;
}

/** A single value, or the error to answer with. Missing is "no answer", a list a fault. */
export function known(value: EngineValue): number | string | boolean | CellError {
  if (value instanceof SimpleRangeValue) return listLeftOver();
  if (value instanceof CellError) return value;
  if (value === EmptyValue || value === '') return noAnswer();
  return plain(value);
}

/** Numbers with a format of their own (money, percent) never enter; should one, its bare number counts. */
function plain(value: Exclude<Scalar, CellError | typeof EmptyValue>): number | string | boolean {
  return typeof value === 'object' ? value.val : value;
}

/** As `known`, and a number: text is a fault with its words quoted. TRUE counts 1 and FALSE 0. */
export function knownNumber(value: EngineValue): number | CellError {
  const found = known(value);
  if (typeof found === 'string') return textAsNumber(found);
  return typeof found === 'boolean' ? Number(found) : found;
}

function textAsNumber(text: string): CellError {
  return toCellError(
    fault(
      'text-as-number',
      say('“{text}” is text, and this formula needs a number there.', { text }),
    ),
  );
}

function listLeftOver(): CellError {
  return toCellError(
    fault('list-left-over', say('A list stands only inside a function such as AVERAGE(herd.epg).')),
  );
}
