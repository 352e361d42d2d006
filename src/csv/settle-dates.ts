import { isFault } from '../../shared/value.ts';
import { dayId } from '../text/day-id.ts';
import { dateWords } from '../text/date-words.ts';
import { type DateOrder, type DateReading, orderInWords } from '../text/date-reading.ts';
import type { ColumnValues } from './column-values.ts';
import { findOrder, orderOfReadings, type OrderFound } from './date-order.ts';
import type { HeadingDay, Question, Role } from './role.ts';
import type { Table } from './table.ts';
import { say } from '../text/say.ts';

/** What settling needs: the table, the answers so far, and where to put a question. */
export interface Settling {
  readonly table: Table;
  readonly values: readonly ColumnValues[];
  readonly answers: ReadonlyMap<string, string>;
  readonly ask: (question: Question) => void;
}

/** Gives each date column its order: found in its values, answered, or asked once. */
export function settleDateColumns(roles: readonly Role[], settling: Settling): Role[] {
  const { rows, headers } = settling.table;
  return roles.map((role, column) => {
    if ((role.role !== 'date' && role.role !== 'born') || role.order !== null) return role;
    const texts = rows.map((row) => row.cells[column] ?? '');
    const found = findOrder(texts);
    const example = found.example;
    const line = example ? rows[example.at]?.line : undefined;
    const text = (example ? (texts[example.at] ?? '') : '').trim();
    const place = { column: columnName(column, headers[column]), line };
    const sentence = sentenceOfColumn(text, place, found);
    return { ...role, order: orderFor(found, `order:${column}`, [column], sentence, settling) };
  });
}

/** Gives the days in headings their order, one for all of them, and their day ids. */
export function settleHeadingDays(roles: readonly Role[], settling: Settling): Role[] {
  const dated = roles.flatMap((role, column) => {
    const day = dayOf(role);
    return day ? [{ column, day }] : [];
  });
  if (dated.length === 0) return [...roles];
  const found = orderOfReadings(dated.map(({ day }) => day.readings));
  const columns = dated.map(({ column }) => column);
  const example = found.example ? columns[found.example.at] : undefined;
  const text = example === undefined ? '' : (settling.table.headers[example] ?? '').trim();
  const sentence = sentenceOfHeadings(text, found);
  const order = orderFor(found, 'order:headings', columns, sentence, settling);
  return roles.map((role) => {
    const day = dayOf(role);
    if (!day || order === null) return role;
    const reading = readingOf(day.readings, order);
    const id = reading ? dayId(reading.date, day.label) : null;
    return id === null || isFault(id)
      ? {
          role: 'ignored',
          why: say(
            'its date is none with {order, select, dmy {the day first} mdy {the month first} ymd {the year first} other {its parts in any order}}',
            { order },
          ),
        }
      : withDay(role, { ...day, day: id });
  });
}

/** The day in a role's heading, if it has one. */
export function dayOf(role: Role): HeadingDay | null {
  return 'day' in role ? role.day : null;
}

export function withDay(role: Role, day: HeadingDay): Role {
  return 'day' in role ? { ...role, day } : role;
}

function readingOf(
  readings: readonly DateReading[],
  order: DateOrder | 'any',
): DateReading | undefined {
  return readings.find((reading) => reading.order === 'any' || reading.order === order);
}

function orderFor(
  found: OrderFound,
  id: string,
  columns: readonly number[],
  sentence: string,
  { answers, ask }: Settling,
): DateOrder | 'any' | null {
  if (found.order !== null) return found.order;
  const answer = found.choices.find((choice) => choice === answers.get(id));
  if (answer) return answer;
  const readings = found.example?.readings ?? [];
  ask({
    id,
    kind: 'date-order',
    columns,
    sentence,
    choices: found.choices.map((order) => {
      const date = readingOf(readings, order)?.date;
      return { value: order, label: orderInWords(order) + (date ? `: ${dateWords(date)}` : '') };
    }),
  });
  return null;
}

/** A column as it is named in a question: `2`, or `2 (date)` where it has a heading. */
export function columnName(column: number, heading: string | undefined): string {
  return heading ? `${column + 1} (${heading})` : String(column + 1);
}

/** All days that the doubtful text of a question can be. */
function eitherDate({ example }: OrderFound): string {
  return (example?.readings ?? [])
    .map(({ date }) => dateWords(date))
    .reduce((first, second) => say('{first} or {second}', { first, second }));
}

function sentenceOfColumn(
  text: string,
  { column, line }: { readonly column: string; readonly line: number | undefined },
  found: OrderFound,
): string {
  return found.example === null
    ? say(
        'The dates in column {column} are written in different ways. Which comes first in most of them?',
        { column },
      )
    : say(
        '"{text}" in column {column}, line {line} can be {dates}. Which comes first in this list?',
        { text, column, line, dates: eitherDate(found) },
      );
}

function sentenceOfHeadings(text: string, found: OrderFound): string {
  return found.example === null
    ? say(
        'The dates in the headings are written in different ways. Which comes first in most of them?',
      )
    : say('"{text}" in the headings can be {dates}. Which comes first in this list?', {
        text,
        dates: eitherDate(found),
      });
}
