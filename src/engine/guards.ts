import { CellError, EmptyValue, ErrorType } from 'hyperformula';
import { fault } from '../../shared/value.ts';
import { isNoAnswer, noAnswer, toCellError } from './cell-faults.ts';
import { compare, COMPARISON_NAMES } from './comparisons.ts';
import {
  argsFrom,
  entries,
  isMissing,
  known,
  knownNumber,
  listOf,
  type Args,
  type EngineValue,
  type Scalar,
} from './engine-values.ts';
import { countBlank, countIf, countUnique } from './list-counting.ts';
import { unquoted } from './quoted.ts';
import { say } from '../text/say.ts';

/** A function that only the compiler writes, or that replaces a spreadsheet's own where that one misreads blanks. */
type Guard = (args: Args) => EngineValue;

/**
 * The formula of a row after a look at its inputs: any that is missing → missing; any error → that error;
 * only then the formula, whose "no answer" and `""` are missing too. Missing wins over an error: an animal
 * not counted has no epg, whatever is wrong with its factor.
 */
function lookFirst(args: Args, missing: typeof EmptyValue | CellError): EngineValue {
  let error: CellError | null = null;
  for (let i = 1; i < args.count; i++) {
    const input = args.at(i);
    if (isMissing(input) || isNoAnswer(input)) return missing;
    if (input instanceof CellError) error ??= input;
  }
  if (error) return error;
  const result = args.at(0);
  return isMissing(result) || isNoAnswer(result) ? missing : result;
}

/**
 * The entries of a list whose rows are in the group; the others are missing, so that places stay the
 * same. Capitals tell groups apart where a group is named just so; else any that reads alike is meant.
 */
function keepGroup(list: EngineValue, groups: EngineValue, name: EngineValue): EngineValue {
  const wanted = typeof name === 'string' ? name.trim().toLowerCase() : '';
  const members = entries(groups);
  const exact = typeof name === 'string' ? name.trim() : '';
  const isExact = members.some((group) => typeof group === 'string' && group.trim() === exact);
  // Few names stand in thousands of rows: each is looked at once.
  const isWanted = new Map<Scalar, boolean>();
  const kept = entries(list).map((entry, i): Scalar => {
    const group = members[i] ?? EmptyValue;
    let isOne = isWanted.get(group);
    if (isOne === undefined) {
      const read = typeof group === 'string' ? group.trim() : '';
      isOne = read !== '' && (isExact ? read === exact : read.toLowerCase() === wanted);
      isWanted.set(group, isOne);
    }
    return isOne ? entry : EmptyValue;
  });
  return listOf(kept);
}

/** A summary, or a sentence in place of the calculator's "divided by 0" where there are too few figures. */
function enough(summary: EngineValue): EngineValue {
  if (!(summary instanceof CellError) || summary.message?.includes('\n')) return summary;
  if (summary.type !== ErrorType.DIV_BY_ZERO && summary.type !== ErrorType.NUM) return summary;
  return toCellError(
    fault(
      'too-few',
      say(
        'There are too few known figures for this, or they do not fit: a spread needs 2, a ranking as many as its place.',
      ),
    ),
  );
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
      say('{found} is not TRUE or FALSE. Write a condition, such as eyelid >= 4.', {
        found: typeof found === 'number' ? found : `“${found}”`,
      }),
    ),
  );
}

export const GUARDS: ReadonlyMap<string, Guard> = new Map<string, Guard>([
  ['KNOWN', (args) => lookFirst(args, EmptyValue)],
  ['KNOWNWITHIN', (args) => lookFirst(args, noAnswer())],
  ['HAVE', (args) => known(args.at(0))],
  ['NUMBERONLY', (args) => knownNumber(args.at(0))],
  ['TRUTHONLY', (args) => truthOnly(args.at(0))],
  ['FAULT', (args) => faultOf(args.at(0), args.at(1))],
  [
    'SOMEKNOWN',
    (args) => {
      const known = argsFrom(args, 1).flatMap((list) =>
        entries(list).filter((entry) => !isMissing(entry)),
      );
      const error = known.find((entry) => entry instanceof CellError);
      if (error) return error;
      return known.length > 0 ? enough(args.at(0)) : noAnswer();
    },
  ],
  [
    'PLAINTEXT',
    (args) => {
      const code = args.at(0);
      return typeof code === 'string' ? unquoted(code) : code;
    },
  ],
  ['COUNTKNOWN', (args) => countKnown(args.at(0))],
  ['KEEPGROUP', (args) => keepGroup(args.at(0), args.at(1), args.at(2))],
  [
    'LASTOF',
    (args) => {
      for (let i = 0; i < args.count; i++) {
        const value = args.at(i);
        if (!isMissing(value)) return value;
      }
      return EmptyValue;
    },
  ],
  ['NOTHING', () => EmptyValue],
  [
    'FLUIDADDED',
    (args) => {
      const fluid = knownNumber(args.at(0));
      if (args.at(1) !== true || fluid instanceof CellError) return fluid;
      const grams = knownNumber(args.at(2));
      return grams instanceof CellError ? grams : fluid - grams;
    },
  ],
  [
    'DAYBOOK.GIVEN',
    (args) => {
      const value = args.at(0);
      return value instanceof CellError && !isNoAnswer(value) ? value : !isEmpty(value);
    },
  ],
  [
    'DAYBOOK.ISBLANK',
    (args) => {
      const value = args.at(0);
      return value instanceof CellError && !isNoAnswer(value) ? value : isEmpty(value);
    },
  ],
  ['DAYBOOK.MISSING', () => noAnswer()],
  [
    'DAYBOOK.IFERROR',
    (args) => {
      const value = args.at(0);
      return value instanceof CellError && !isNoAnswer(value) ? args.at(1) : value;
    },
  ],
  [
    'DAYBOOK.ISERROR',
    (args) => {
      const value = args.at(0);
      if (isNoAnswer(value)) return value;
      return value instanceof CellError;
    },
  ],
  [
    'DAYBOOK.COUNTA',
    (args) => argsFrom(args, 0).reduce<number>((sum, list) => sum + countKnown(list), 0),
  ],
  ['DAYBOOK.COUNTIF', (args) => countIf(args)],
  ['DAYBOOK.COUNTBLANK', (args) => countBlank(args.at(0), args.count > 1 ? args.at(1) : null)],
  ['DAYBOOK.COUNTUNIQUE', (args) => countUnique(argsFrom(args, 0))],
  ...COMPARISON_NAMES.map((name): [string, Guard] => [
    name,
    (args) => compare(name, args.at(0), args.at(1)),
  ]),
]);

function isEmpty(value: EngineValue): boolean {
  return isMissing(value) || isNoAnswer(value);
}
