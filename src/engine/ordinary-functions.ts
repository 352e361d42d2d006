import type { FunctionRow, Takes } from './function-row.ts';
import type { Kind } from './kinds.ts';
import { say } from '../text/say.ts';

/** An ordinary spreadsheet function allowed here, with one line of help. */
export interface OrdinaryFunction extends FunctionRow {
  readonly help: string;
}

function row(
  form: string,
  gives: Kind | 'args',
  takes: readonly Takes[],
  help: string,
  more: Partial<FunctionRow> & { readonly engineName?: string } = {},
): OrdinaryFunction {
  return {
    name: form,
    engineName: form,
    gives,
    takes,
    least: takes.length,
    optionalFrom: Infinity,
    help,
    ...more,
  };
}

const N: Takes = 'number';
const T: Takes = 'text';
const L: Takes = 'list';

const number = (name: string, takes: readonly Takes[], help: string, least = takes.length) =>
  row(name, 'number', takes, help, { least });
const text = (name: string, takes: readonly Takes[], help: string, least = takes.length) =>
  row(name, 'text', takes, help, { least });
const summary = (name: string, help: string) =>
  row(name, 'number', [L], help, { rest: [L], needsSome: true });
const ranked = (name: string, help: string) =>
  row(name, 'number', [L, N], help, { needsSome: true });

const lists: readonly OrdinaryFunction[] = [
  summary('AVERAGE', say('Arithmetic mean of the known figures of a list.')),
  summary('MEDIAN', say('The middle one: as many animals above as below.')),
  summary('MIN', say('The least of the known figures.')),
  summary('MAX', say('The greatest of the known figures.')),
  summary('SUM', say('The known figures added up.')),
  summary('PRODUCT', say('The known figures multiplied.')),
  summary('SUMSQ', say('The squares of the known figures added up.')),
  summary('STDEV', say('Standard deviation of a sample (n − 1).')),
  summary('STDEV.S', say('Standard deviation of a sample (n − 1).')),
  summary('STDEV.P', say('Standard deviation of a whole herd (n).')),
  summary('VAR', say('Variance of a sample (n − 1).')),
  summary('VAR.S', say('Variance of a sample (n − 1).')),
  summary('VAR.P', say('Variance of a whole herd (n).')),
  summary('AVEDEV', say('Mean distance from the mean.')),
  summary('DEVSQ', say('Sum of the squared distances from the mean.')),
  summary('GEOMEAN', say('Geometric mean; only where every figure is above 0.')),
  summary('HARMEAN', say('Harmonic mean; only where every figure is above 0.')),
  summary('SKEW', say('How lopsided the figures are.')),
  ranked('PERCENTILE', say('The figure below which a share lies: PERCENTILE(herd.epg, 0.9).')),
  ranked('PERCENTILE.INC', say('The figure below which a share lies, ends included.')),
  ranked('PERCENTILE.EXC', say('The figure below which a share lies, ends left out.')),
  ranked('QUARTILE', say('Quarter points: 1, 2 (the median) or 3.')),
  ranked('QUARTILE.INC', say('Quarter points, ends included.')),
  ranked('QUARTILE.EXC', say('Quarter points, ends left out.')),
  ranked('LARGE', say('The n-th greatest: LARGE(herd.epg, 1) is the greatest.')),
  ranked('SMALL', say('The n-th least.')),
  row('COUNT', 'number', [L], say('How many are known numbers.'), { rest: [L] }),
  row('COUNTA', 'number', [L], say('How many hold anything, text too.'), {
    engineName: 'DAYBOOK.COUNTA',
    rest: [L],
  }),
];

const counting: readonly OrdinaryFunction[] = [
  row(
    'COUNTIF',
    'number',
    [L, 'any'],
    say('How many known ones fit: COUNTIF(herd.eyelid, ">=4").'),
    {
      engineName: 'DAYBOOK.COUNTIF',
    },
  ),
  row('COUNTIFS', 'number', [L, 'any'], say('How many fit every condition, list by list.'), {
    engineName: 'DAYBOOK.COUNTIF',
    rest: [L, 'any'],
  }),
  row('COUNTBLANK', 'number', [L], say('How many of the animals present have nothing there.'), {
    engineName: 'DAYBOOK.COUNTBLANK',
  }),
  row('COUNTUNIQUE', 'number', [L], say('How many different known values.'), {
    engineName: 'DAYBOOK.COUNTUNIQUE',
    rest: [L],
  }),
];

const logic: readonly OrdinaryFunction[] = [
  row('IF', 'args', ['truth', 'any', 'any'], say('IF(condition, then, else).'), { least: 2 }),
  row('IFS', 'args', ['truth', 'any'], say('First condition that holds gives the answer.'), {
    rest: ['truth', 'any'],
  }),
  row('AND', 'truth', ['truth'], say('TRUE when every condition holds.'), { rest: ['truth'] }),
  row('OR', 'truth', ['truth'], say('TRUE when any condition holds.'), { rest: ['truth'] }),
  row('XOR', 'truth', ['truth'], say('TRUE when an odd number of conditions holds.'), {
    rest: ['truth'],
  }),
  row('NOT', 'truth', ['truth'], say('The opposite.')),
  row('TRUE', 'truth', [], 'TRUE.'),
  row('FALSE', 'truth', [], 'FALSE.'),
  row('CHOOSE', 'args', [N, 'any'], say('The n-th of what follows.'), { rest: ['any'] }),
  row('IFERROR', 'args', ['any', 'any'], say('Something else where the first is an error.'), {
    engineName: 'DAYBOOK.IFERROR',
  }),
  row('ISERROR', 'truth', ['any'], say('Whether it is an error (missing is none).'), {
    engineName: 'DAYBOOK.ISERROR',
  }),
  row('ISNUMBER', 'truth', ['any'], say('Whether it is a number.')),
  row('ISTEXT', 'truth', ['any'], say('Whether it is text.')),
  row('ISLOGICAL', 'truth', ['any'], say('Whether it is TRUE or FALSE.')),
];

const own: readonly OrdinaryFunction[] = [
  row(
    'GIVEN',
    'truth',
    ['name'],
    say('Whether something is known there; the name may then be missing.'),
    {
      engineName: 'DAYBOOK.GIVEN',
      optionalFrom: 0,
    },
  ),
  row('ISBLANK', 'truth', ['name'], say('The opposite of GIVEN.'), {
    engineName: 'DAYBOOK.ISBLANK',
    optionalFrom: 0,
  }),
  row('MISSING', 'any', [], say('“No answer”: the cell stays empty.'), {
    engineName: 'DAYBOOK.MISSING',
  }),
];

const arithmetic: readonly OrdinaryFunction[] = [
  number('ROUND', [N, N], say('Rounds to so many decimals.'), 1),
  number('ROUNDUP', [N, N], say('Rounds away from 0.'), 1),
  number('ROUNDDOWN', [N, N], say('Rounds towards 0.'), 1),
  number('CEILING', [N, N], say('Rounds up to a multiple.')),
  number('FLOOR', [N, N], say('Rounds down to a multiple.')),
  number('MROUND', [N, N], say('Rounds to the nearest multiple.')),
  number('INT', [N], say('Rounds down to a whole number.')),
  number('TRUNC', [N, N], say('Cuts decimals off.'), 1),
  number('ABS', [N], say('The number without its sign.')),
  number('SIGN', [N], say('1, 0 or −1.')),
  number('MOD', [N, N], say('What a division leaves over.')),
  number('QUOTIENT', [N, N], say('A division without its decimals.')),
  number('POWER', [N, N], say('The first to the power of the second.')),
  number('SQRT', [N], say('Square root.')),
  number('EXP', [N], say('e to that power.')),
  number('LN', [N], say('Natural logarithm.')),
  number('LOG', [N, N], say('Logarithm, to base 10 unless given.'), 1),
  number('LOG10', [N], say('Logarithm to base 10.')),
  number('PI', [], '3.14159…'),
];

const words: readonly OrdinaryFunction[] = [
  row('CONCATENATE', 'text', ['any'], say('Texts put together.'), { rest: ['any'] }),
  text('LEFT', [T, N], say('The first characters of a text.'), 1),
  text('RIGHT', [T, N], say('The last characters of a text.'), 1),
  text('MID', [T, N, N], say('Characters from the middle of a text.')),
  text('UPPER', [T], say('In capitals.')),
  text('LOWER', [T], say('In small letters.')),
  text('TRIM', [T], say('Without needless spaces.')),
  text('SUBSTITUTE', [T, T, T, N], say('One text replaced by another in a third.'), 3),
  text('REPT', [T, N], say('A text repeated.')),
  number('LEN', [T], say('How many characters a text has.')),
  number('FIND', [T, T, N], say('Where one text begins in another, capitals told apart.'), 2),
  number('SEARCH', [T, T, N], say('Where one text begins in another.'), 2),
  row('EXACT', 'truth', [T, T], say('Whether two texts are the same, capitals told apart.')),
];

/**
 * The ordinary spreadsheet functions that formulas may use. Left out on purpose: those that change by
 * themselves (RAND, NOW, TODAY), those that speak of addresses (INDIRECT, OFFSET, ROW), and quantiles
 * that the trade functions work out more exactly.
 */
export const ORDINARY_FUNCTIONS: readonly OrdinaryFunction[] = [
  ...lists,
  ...counting,
  ...logic,
  ...own,
  ...arithmetic,
  ...words,
];
