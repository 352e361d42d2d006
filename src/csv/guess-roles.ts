import { checkDates, checkNamed, checkTags } from './check-rows.ts';
import { type ColumnValues, columnValues, findDecimalMark } from './column-values.ts';
import { type Guess, guessColumn } from './guess-column.ts';
import type { ColumnRole, KnownColumn, Question, Role, RoleOptions, Roles } from './role.ts';
import { settleDateColumns, settleHeadingDays } from './settle-dates.ts';
import { settleSameHeadings, settleUnits } from './settle-headings.ts';
import type { Table, TableFault } from './table.ts';
import { say } from '../text/say.ts';

/** Columns that every template has, for a list read before there is a notebook. */
const commonColumns: readonly KnownColumn[] = [
  ...['chamber1', 'part1', 'chamber2', 'part2', 'grams', 'fluid', 'area', 'factor'],
  ...['nematodirus', 'strongyloides', 'whipworm', 'coccidia', 'tapeworm'],
  ...['eyelid', 'condition', 'dag', 'jaw', 'status', 'decision'],
].map((key) => ({ key }));

/** Roles that only one column of a list can have. */
const single = new Set<Role['role']>(
  'tag,electronic,name,group,class,species,born,date,label,time,cup,note'.split(
    ',',
  ) as Role['role'][],
);

/**
 * Guesses what each column of a list is, from its heading and its values, with what else it might
 * be; lists what only the person can say, each once; and names the rows and cells that cannot be
 * taken. Nothing is changed or dropped here: a column that is left out says why.
 *
 * After an answer or a choice, call it again with `answers` or `chosen`: the same table and options
 * always give the same roles.
 */
export function guessRoles(table: Table, options: RoleOptions = {}): Roles {
  const known = options.known ?? commonColumns;
  const { rows, headers } = table;
  const values = headers.map((_, column) => columnValues(rows, column));
  const guesses = headers.map((heading, column) =>
    guessColumn(heading, values[column] as ColumnValues, known),
  );
  const taken = withoutDerived(oneOfEach(guesses, values, options), known);

  const questions: Question[] = [];
  const answers = options.answers ?? new Map<string, string>();
  const context = { table, values, answers, ask: (question: Question) => questions.push(question) };
  let roles = taken.map((guess, column) => options.chosen?.get(column) ?? guess.role);
  roles = settleDateColumns(roles, context);
  roles = settleHeadingDays(roles, context);
  roles = settleSameHeadings(roles, context);
  roles = settleUnits(roles, context);

  const columns = roles.map((role, column): ColumnRole => {
    const chosen = options.chosen?.has(column) ?? false;
    const look = values[column] as ColumnValues;
    return {
      column,
      header: headers[column] ?? '',
      role,
      others: otherRoles(role, look),
      sure: chosen || (taken[column]?.sure ?? false),
    };
  });
  return {
    columns,
    questions,
    faults: faultsOf(table, roles),
    decimalMark:
      findDecimalMark(rows) ?? options.decimalMark ?? (table.separator === ';' ? ',' : '.'),
  };
}

/** Leaves each single role to the column that fits it best; the others say why they are left out. */
function oneOfEach(
  guesses: readonly Guess[],
  values: readonly ColumnValues[],
  options: RoleOptions,
): readonly Guess[] {
  const result = [...guesses];
  const holders = new Map<Role['role'], number>();
  for (const [column, role] of options.chosen ?? []) holders.set(role.role, column);
  const byRank = guesses.map((_, column) => column).sort((a, b) => rankOf(a) - rankOf(b) || a - b);
  function rankOf(column: number): number {
    return guesses[column]?.rank ?? 9;
  }
  for (const column of byRank) {
    const guess = result[column];
    if (!guess || options.chosen?.has(column) || !single.has(guess.role.role)) continue;
    const name = guess.role.role;
    if (!holders.has(name)) {
      holders.set(name, column);
    } else if (name === 'tag' && isElectronic(values[column]) && !holders.has('electronic')) {
      holders.set('electronic', column);
      result[column] = { ...guess, role: { role: 'electronic' } };
    } else {
      const why = say(
        'another column is taken for {role, select, tag {the tag} electronic {the electronic number} name {the name} group {the group} class {the class} species {the species} born {the date of birth} date {the sampling day} label {the label of the day} time {the time of day} cup {the cup number} other {the note}}',
        { role: name },
      );
      result[column] = { ...guess, sure: false, role: { role: 'ignored', why } };
    }
  }
  if (holders.has('tag') || holders.has('electronic')) return result;
  const likeliest = result.findIndex(
    ({ role, sure }, column) => !sure && !('day' in role && role.day) && isLikeTags(values[column]),
  );
  if (likeliest !== -1 && !options.chosen?.has(likeliest)) {
    result[likeliest] = { role: { role: 'tag' }, sure: false, rank: 9 };
  }
  return result;
}

function isElectronic(values: ColumnValues | undefined): boolean {
  return values !== undefined && values.electronicShare > 0.8;
}

/** Nearly every value another one, and neither dates nor decimals. */
function isLikeTags(values: ColumnValues | undefined): boolean {
  if (!values || values.filled === 0 || values.hasDecimals) return false;
  return values.dateShare < 0.5 && values.unitShare < 0.5 && values.distinct > 0.8 * values.filled;
}

/** A list that has the counts themselves needs no eggs and no epg: the notebook works them out. */
function withoutDerived(
  guesses: readonly Guess[],
  known: readonly KnownColumn[],
): readonly Guess[] {
  const hasChambers = guesses.some(({ role }) => role.role === 'column' && role.key === 'chamber1');
  const derives = known.some(({ key, derived }) => derived === true && key === 'epg');
  if (!hasChambers || !derives) return guesses;
  return guesses.map((guess) =>
    guess.role.role === 'epg' || guess.role.role === 'count'
      ? { ...guess, role: { role: 'ignored', why: say('the notebook works this out itself') } }
      : guess,
  );
}

/** What else a column might be, likelier ones first; `ignored` always. */
function otherRoles(role: Role, values: ColumnValues): readonly Role[] {
  const day = 'day' in role ? role.day : null;
  const numbers: Role[] = [
    { role: 'count', day },
    { role: 'epg', day },
    { role: 'weight', unit: null, day },
  ];
  const texts: Role[] = [
    { role: 'tag' },
    { role: 'electronic' },
    { role: 'name' },
    { role: 'group' },
    { role: 'note' },
    { role: 'cup' },
  ];
  const dates: Role[] = [
    { role: 'date', order: null },
    { role: 'born', order: null },
  ];
  const likely =
    values.dateShare > 0.5
      ? [...dates, ...texts]
      : values.numberShare > 0.5
        ? [...numbers, ...texts]
        : [...texts, ...numbers];
  const ignored: Role = { role: 'ignored', why: say('left out, as you chose') };
  return [...likely, ignored].filter((other) => other.role !== role.role);
}

function faultsOf(table: Table, roles: readonly Role[]): readonly TableFault[] {
  const { rows } = table;
  const columnOf = (name: Role['role']): number => roles.findIndex(({ role }) => role === name);
  const tag = columnOf('tag');
  const electronic = columnOf('electronic');
  const faults: TableFault[] = [];
  if (tag !== -1) faults.push(...checkTags(rows, tag, 'row'));
  if (electronic !== -1) {
    faults.push(...checkTags(rows, electronic, tag === -1 ? 'row' : 'cell'));
  }
  const naming = [tag, electronic, columnOf('cup')].filter((column) => column !== -1);
  if (naming.length > 0) faults.push(...checkNamed(rows, naming));
  roles.forEach((role, column) => {
    if ((role.role === 'date' || role.role === 'born') && role.order !== null) {
      const refused = role.role === 'date' ? 'row' : 'cell';
      faults.push(...checkDates(rows, column, role.order, refused));
    }
  });
  return faults.sort((a, b) => a.line - b.line);
}
