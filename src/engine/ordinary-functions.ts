import type { FunctionRow, Takes } from './function-row.ts';
import type { Kind } from './kinds.ts';

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
  summary('AVERAGE', 'Arithmetic mean of the known figures of a list.'),
  summary('MEDIAN', 'The middle one: as many animals above as below.'),
  summary('MIN', 'The least of the known figures.'),
  summary('MAX', 'The greatest of the known figures.'),
  summary('SUM', 'The known figures added up.'),
  summary('PRODUCT', 'The known figures multiplied.'),
  summary('SUMSQ', 'The squares of the known figures added up.'),
  summary('STDEV', 'Standard deviation of a sample (n − 1).'),
  summary('STDEV.S', 'Standard deviation of a sample (n − 1).'),
  summary('STDEV.P', 'Standard deviation of a whole herd (n).'),
  summary('VAR', 'Variance of a sample (n − 1).'),
  summary('VAR.S', 'Variance of a sample (n − 1).'),
  summary('VAR.P', 'Variance of a whole herd (n).'),
  summary('AVEDEV', 'Mean distance from the mean.'),
  summary('DEVSQ', 'Sum of the squared distances from the mean.'),
  summary('GEOMEAN', 'Geometric mean; only where every figure is above 0.'),
  summary('HARMEAN', 'Harmonic mean; only where every figure is above 0.'),
  summary('SKEW', 'How lopsided the figures are.'),
  ranked('PERCENTILE', 'The figure below which a share lies: PERCENTILE(herd.epg, 0.9).'),
  ranked('PERCENTILE.INC', 'The figure below which a share lies, ends included.'),
  ranked('PERCENTILE.EXC', 'The figure below which a share lies, ends left out.'),
  ranked('QUARTILE', 'Quarter points: 1, 2 (the median) or 3.'),
  ranked('QUARTILE.INC', 'Quarter points, ends included.'),
  ranked('QUARTILE.EXC', 'Quarter points, ends left out.'),
  ranked('LARGE', 'The n-th greatest: LARGE(herd.epg, 1) is the greatest.'),
  ranked('SMALL', 'The n-th least.'),
  row('COUNT', 'number', [L], 'How many are known numbers.', { rest: [L] }),
  row('COUNTA', 'number', [L], 'How many hold anything, text too.', {
    engineName: 'DAYBOOK.COUNTA',
    rest: [L],
  }),
];

const counting: readonly OrdinaryFunction[] = [
  row('COUNTIF', 'number', [L, 'any'], 'How many known ones fit: COUNTIF(herd.eyelid, ">=4").', {
    engineName: 'DAYBOOK.COUNTIF',
  }),
  row('COUNTIFS', 'number', [L, 'any'], 'How many fit every condition, list by list.', {
    engineName: 'DAYBOOK.COUNTIF',
    rest: [L, 'any'],
  }),
  row('COUNTBLANK', 'number', [L], 'How many of the animals present have nothing there.', {
    engineName: 'DAYBOOK.COUNTBLANK',
  }),
  row('COUNTUNIQUE', 'number', [L], 'How many different known values.', {
    engineName: 'DAYBOOK.COUNTUNIQUE',
    rest: [L],
  }),
];

const logic: readonly OrdinaryFunction[] = [
  row('IF', 'args', ['truth', 'any', 'any'], 'IF(condition, then, else).', { least: 2 }),
  row('IFS', 'args', ['truth', 'any'], 'First condition that holds gives the answer.', {
    rest: ['truth', 'any'],
  }),
  row('AND', 'truth', ['truth'], 'TRUE when every condition holds.', { rest: ['truth'] }),
  row('OR', 'truth', ['truth'], 'TRUE when any condition holds.', { rest: ['truth'] }),
  row('XOR', 'truth', ['truth'], 'TRUE when an odd number of conditions holds.', {
    rest: ['truth'],
  }),
  row('NOT', 'truth', ['truth'], 'The opposite.'),
  row('TRUE', 'truth', [], 'TRUE.'),
  row('FALSE', 'truth', [], 'FALSE.'),
  row('CHOOSE', 'args', [N, 'any'], 'The n-th of what follows.', { rest: ['any'] }),
  row('IFERROR', 'args', ['any', 'any'], 'Something else where the first is an error.', {
    engineName: 'DAYBOOK.IFERROR',
  }),
  row('ISERROR', 'truth', ['any'], 'Whether it is an error (missing is none).', {
    engineName: 'DAYBOOK.ISERROR',
  }),
  row('ISNUMBER', 'truth', ['any'], 'Whether it is a number.'),
  row('ISTEXT', 'truth', ['any'], 'Whether it is text.'),
  row('ISLOGICAL', 'truth', ['any'], 'Whether it is TRUE or FALSE.'),
];

const own: readonly OrdinaryFunction[] = [
  row(
    'GIVEN',
    'truth',
    ['name'],
    'Whether something is known there; the name may then be missing.',
    {
      engineName: 'DAYBOOK.GIVEN',
      optionalFrom: 0,
    },
  ),
  row('ISBLANK', 'truth', ['name'], 'The opposite of GIVEN.', {
    engineName: 'DAYBOOK.ISBLANK',
    optionalFrom: 0,
  }),
  row('MISSING', 'any', [], '“No answer”: the cell stays empty.', {
    engineName: 'DAYBOOK.MISSING',
  }),
];

const arithmetic: readonly OrdinaryFunction[] = [
  number('ROUND', [N, N], 'Rounds to so many decimals.', 1),
  number('ROUNDUP', [N, N], 'Rounds away from 0.', 1),
  number('ROUNDDOWN', [N, N], 'Rounds towards 0.', 1),
  number('CEILING', [N, N], 'Rounds up to a multiple.'),
  number('FLOOR', [N, N], 'Rounds down to a multiple.'),
  number('MROUND', [N, N], 'Rounds to the nearest multiple.'),
  number('INT', [N], 'Rounds down to a whole number.'),
  number('TRUNC', [N, N], 'Cuts decimals off.', 1),
  number('ABS', [N], 'The number without its sign.'),
  number('SIGN', [N], '1, 0 or −1.'),
  number('MOD', [N, N], 'What a division leaves over.'),
  number('QUOTIENT', [N, N], 'A division without its decimals.'),
  number('POWER', [N, N], 'The first to the power of the second.'),
  number('SQRT', [N], 'Square root.'),
  number('EXP', [N], 'e to that power.'),
  number('LN', [N], 'Natural logarithm.'),
  number('LOG', [N, N], 'Logarithm, to base 10 unless given.', 1),
  number('LOG10', [N], 'Logarithm to base 10.'),
  number('PI', [], '3.14159…'),
];

const words: readonly OrdinaryFunction[] = [
  row('CONCATENATE', 'text', ['any'], 'Texts put together.', { rest: ['any'] }),
  text('LEFT', [T, N], 'The first characters of a text.', 1),
  text('RIGHT', [T, N], 'The last characters of a text.', 1),
  text('MID', [T, N, N], 'Characters from the middle of a text.'),
  text('UPPER', [T], 'In capitals.'),
  text('LOWER', [T], 'In small letters.'),
  text('TRIM', [T], 'Without needless spaces.'),
  text('SUBSTITUTE', [T, T, T, N], 'One text replaced by another in a third.', 3),
  text('REPT', [T, N], 'A text repeated.'),
  number('LEN', [T], 'How many characters a text has.'),
  number('FIND', [T, T, N], 'Where one text begins in another, capitals told apart.', 2),
  number('SEARCH', [T, T, N], 'Where one text begins in another.', 2),
  row('EXACT', 'truth', [T, T], 'Whether two texts are the same, capitals told apart.'),
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
