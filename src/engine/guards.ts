import { CellError, EmptyValue, SimpleRangeValue } from 'hyperformula';
import { fault } from '../../shared/value.ts';
import { isNoAnswer, noAnswer, toCellError } from './cell-faults.ts';
import { compare, COMPARISON_NAMES } from './comparisons.ts';
import {
  entries,
  isMissing,
  known,
  knownNumber,
  type EngineValue,
  type Lazy,
  type Scalar,
} from './engine-values.ts';
import { countBlank, countIf, countUnique } from './list-counting.ts';

/** A function that only the compiler writes, or that replaces a spreadsheet's own where that one misreads blanks. */
type Guard = (args: readonly Lazy[]) => EngineValue;

const at = (args: readonly Lazy[], index: number): EngineValue => args[index]?.() ?? EmptyValue;

/**
 * The formula of a row after a look at its inputs: any that is missing → missing; any error → that error;
 * only then the formula, whose "no answer" and `""` are missing too. Missing wins over an error: an animal
 * not counted has no epg, whatever is wrong with its factor.
 */
function lookFirst(args: readonly Lazy[], missing: typeof EmptyValue | CellError): EngineValue {
  let error: CellError | null = null;
  for (let i = 1; i < args.length; i++) {
    const input = at(args, i);
    if (isMissing(input) || isNoAnswer(input)) return missing;
    if (input instanceof CellError) error ??= input;
  }
  if (error) return error;
  const result = at(args, 0);
  return isMissing(result) || isNoAnswer(result) ? missing : result;
}

/** The entries of a list whose rows are in the group; the others are missing, so that places stay the same. */
function keepGroup(list: EngineValue, groups: EngineValue, name: EngineValue): EngineValue {
  const wanted = typeof name === 'string' ? name.trim().toLowerCase() : '';
  const members = entries(groups);
  const kept = entries(list).map((entry, i): Scalar[] => {
    const group = members[i];
    return [
      typeof group === 'string' && group.trim().toLowerCase() === wanted ? entry : EmptyValue,
    ];
  });
  return SimpleRangeValue.onlyValues(kept);
}

/** How many entries hold something that is no error: the n of "n of N". */
function countKnown(list: EngineValue): number {
  return entries(list).filter((entry) => !isMissing(entry) && !(entry instanceof CellError)).length;
}

function faultOf(kind: EngineValue, sentence: EngineValue): CellError {
  const text = (value: EngineValue): string => (typeof value === 'string' ? value : '');
  return toCellError(fault(text(kind), text(sentence)));
}

function truthOnly(value: EngineValue): boolean | CellError {
  const found = known(value);
  if (typeof found === 'boolean' || found instanceof CellError) return found;
  return toCellError(
    fault(
      'not-a-condition',
      `${typeof found === 'number' ? found : `“${found}”`} is not TRUE or FALSE. Write a condition, such as eyelid >= 4.`,
    ),
  );
}

export const GUARDS: ReadonlyMap<string, Guard> = new Map<string, Guard>([
  ['KNOWN', (args) => lookFirst(args, EmptyValue)],
  ['KNOWNWITHIN', (args) => lookFirst(args, noAnswer())],
  ['HAVE', (args) => known(at(args, 0))],
  ['NUMBERONLY', (args) => knownNumber(at(args, 0))],
  ['TRUTHONLY', (args) => truthOnly(at(args, 0))],
  ['FAULT', (args) => faultOf(at(args, 0), at(args, 1))],
  [
    'SOMEKNOWN',
    (args) =>
      args.slice(1).some((list) => entries(list()).some((entry) => !isMissing(entry)))
        ? at(args, 0)
        : noAnswer(),
  ],
  ['COUNTKNOWN', (args) => countKnown(at(args, 0))],
  ['KEEPGROUP', (args) => keepGroup(at(args, 0), at(args, 1), at(args, 2))],
  [
    'LASTOF',
    (args) => {
      for (const arg of args) {
        const value = arg();
        if (!isMissing(value)) return value;
      }
      return EmptyValue;
    },
  ],
  ['NOTHING', () => EmptyValue],
  [
    'FLUIDADDED',
    (args) => {
      const fluid = knownNumber(at(args, 0));
      if (at(args, 1) !== true || fluid instanceof CellError) return fluid;
      const grams = knownNumber(at(args, 2));
      return grams instanceof CellError ? grams : fluid - grams;
    },
  ],
  [
    'DAYBOOK.GIVEN',
    (args) => {
      const value = at(args, 0);
      return value instanceof CellError && !isNoAnswer(value) ? value : !isEmpty(value);
    },
  ],
  [
    'DAYBOOK.ISBLANK',
    (args) => {
      const value = at(args, 0);
      return value instanceof CellError && !isNoAnswer(value) ? value : isEmpty(value);
    },
  ],
  ['DAYBOOK.MISSING', () => noAnswer()],
  [
    'DAYBOOK.IFERROR',
    (args) => {
      const value = at(args, 0);
      return value instanceof CellError && !isNoAnswer(value) ? at(args, 1) : value;
    },
  ],
  [
    'DAYBOOK.ISERROR',
    (args) => {
      const value = at(args, 0);
      if (isNoAnswer(value)) return value;
      return value instanceof CellError;
    },
  ],
  ['DAYBOOK.COUNTIF', (args) => countIf(args)],
  ['DAYBOOK.COUNTBLANK', (args) => countBlank(at(args, 0), args[1]?.() ?? null)],
  ['DAYBOOK.COUNTUNIQUE', (args) => countUnique(args.map((arg) => arg()))],
  ...COMPARISON_NAMES.map((name): [string, Guard] => [
    name,
    (args) => compare(name, at(args, 0), at(args, 1)),
  ]),
]);

function isEmpty(value: EngineValue): boolean {
  return isMissing(value) || isNoAnswer(value);
}
