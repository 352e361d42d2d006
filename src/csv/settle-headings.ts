import { isFault } from '../../shared/value.ts';
import { dayId } from '../text/day-id.ts';
import { dayIdWords } from '../text/day-words.ts';
import { plainHeading } from './heading-words.ts';
import type { Role } from './role.ts';
import { columnName, dayOf, type Settling, withDay } from './settle-dates.ts';
import { say } from '../text/say.ts';

/** Asks for the unit of weights that bear none, neither in the heading nor in the cells. */
export function settleUnits(roles: readonly Role[], settling: Settling): Role[] {
  return roles.map((role, column) => {
    const values = settling.values[column];
    if (role.role !== 'weight' || role.unit !== null) return role;
    if (!values || values.filled === 0 || values.unitShare === 1) return role;
    const id = `unit:${column}`;
    const answer = settling.answers.get(id);
    if (answer === 'kg' || answer === 'lb') return { ...role, unit: answer };
    const header = settling.table.headers[column]?.trim() ?? '';
    settling.ask({
      id,
      kind: 'weight-unit',
      columns: [column],
      sentence: say('Column {column} holds weights without a unit. In which unit are they?', {
        column: columnName(column, header),
      }),
      choices: [
        { value: 'kg', label: say('kilograms') },
        { value: 'lb', label: say('pounds') },
      ],
    });
    return role;
  });
}

const further = ['second', 'third', 'fourth', 'fifth', 'sixth'];

/**
 * Columns of readings that say the same thing (two columns for 1 March, two columns `count`): asks
 * once whether they are two samplings, the two chambers of one, or one of them to be left out. Until
 * then both stand as they are.
 */
export function settleSameHeadings(roles: readonly Role[], settling: Settling): Role[] {
  const groups = new Map<string, number[]>();
  roles.forEach((role, column) => {
    const meaning = sameness(role, settling.table.headers[column] ?? '');
    if (meaning !== null) groups.set(meaning, [...(groups.get(meaning) ?? []), column]);
  });
  const result = [...roles];
  for (const columns of groups.values()) {
    if (columns.length > 1) settleGroup(columns, result, settling);
  }
  return result;
}

function sameness(role: Role, header: string): string | null {
  if (!('day' in role)) return null;
  const what = role.role === 'column' ? `column ${role.key}` : role.role;
  const day = role.day ? (role.day.day ?? plainHeading(header)) : '';
  return `${what}\n${day}`;
}

function settleGroup(columns: readonly number[], roles: Role[], settling: Settling): void {
  const [first = 0] = columns;
  const role = roles[first];
  if (!role) return;
  const day = dayOf(role);
  const canBeChambers = role.role === 'count' && columns.length === 2;
  const choices = [
    ...(day
      ? [
          {
            value: 'samplings',
            label: say('{samplings} samplings of that day', { samplings: columns.length }),
          },
        ]
      : []),
    ...(canBeChambers
      ? [{ value: 'chambers', label: say('the two chambers of one sampling') }]
      : []),
    { value: 'first', label: say('take the first, leave out the rest') },
    { value: 'last', label: say('take the last, leave out the rest') },
  ];
  const id = `same:${first}`;
  const answer = choices.find(({ value }) => value === settling.answers.get(id))?.value;
  if (answer === undefined) {
    const heading = day?.day ? dayIdWords(day.day) : (settling.table.headers[first] ?? '').trim();
    const numbers = columns
      .map((column) => String(column + 1))
      .reduce((one, other) => say('{one} and {other}', { one, other }));
    const sentence = day
      ? say(
          'Columns {numbers} are both "{heading}". Are they two samplings of one day, or is one to be left out?',
          { numbers, heading },
        )
      : say(
          'Columns {numbers} are both "{heading}". Are they two counts of one sample, or is one to be left out?',
          { numbers, heading },
        );
    settling.ask({ id, kind: 'same-heading', columns, sentence, choices });
    return;
  }
  columns.forEach((column, at) => {
    const own = roles[column];
    if (own) roles[column] = answered(own, answer, at, at === columns.length - 1);
  });
}

function answered(role: Role, answer: string, at: number, isLast: boolean): Role {
  const day = dayOf(role);
  if (answer === 'samplings' && day) {
    if (at === 0) return role;
    const label = `${day.label} ${further[at - 1] ?? at + 1}`.trim();
    const id = day.day === null ? null : dayId(day.day.slice(0, 10), label);
    return withDay(role, { ...day, label, day: id === null || isFault(id) ? null : id });
  }
  if (answer === 'chambers') return { role: 'column', key: `chamber${at + 1}`, day };
  const kept = answer === 'first' ? at === 0 : isLast;
  return kept ? role : { role: 'ignored', why: say('left out, as you chose') };
}
