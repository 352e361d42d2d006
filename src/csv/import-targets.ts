import type { Column, Notebook } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { factorOf, protocolOn } from '../notebook/day-factor.ts';
import { columnByKey, columnsOf, markOf } from '../notebook/read.ts';
import { writeNumber, type DecimalMark } from '../text/decimal-text.ts';
import { shortNumber } from '../treating/short-number.ts';
import { plainHeading } from './heading-words.ts';
import { reportedColumn, type ImportOptions } from './import-plan.ts';
import type { ColumnRole, Question, Role } from './role.ts';
import { say } from '../text/say.ts';

/** Where the cells of one column of a list go. */
export type Target =
  | {
      readonly to: 'readings';
      readonly column: Column;
      /** The heading's own day; `null`: the day of the row. */
      readonly day: DayId | null;
      /**
       * `typed`: the text as it stands; `count`: eggs, of all areas together where `allAreas`;
       * `back`: eggs per gram taken back to eggs by `factor`.
       */
      readonly as: 'typed' | 'count' | 'back';
      readonly allAreas?: boolean;
      readonly factor?: number;
      readonly unit: 'kg' | 'lb' | null;
    }
  | { readonly to: 'row'; readonly role: Role['role'] }
  | { readonly to: 'wait' }
  | { readonly to: 'nothing'; readonly why: string };

/** The targets of all columns, with what has to be asked to know them. */
export interface Targets {
  readonly targets: readonly Target[];
  readonly questions: readonly Question[];
  readonly addsReportedColumn: boolean;
}

/** Decides where each column goes, by its role, the notebook's columns and the answers so far. */
export function importTargets(
  columns: readonly ColumnRole[],
  notebook: Notebook,
  options: ImportOptions,
): Targets {
  const questions: Question[] = [];
  const answers = options.answers ?? new Map<string, string>();
  const asking = { notebook, answers, questions, columns };
  const targets = columns.map((column) => targetOf(column, asking));
  const addsReportedColumn =
    columnByKey(notebook, reportedColumn.key) === undefined &&
    targets.some((target) => target.to === 'readings' && target.column.id === reportedColumn.id);
  return { targets, questions, addsReportedColumn };
}

interface Asking {
  readonly notebook: Notebook;
  readonly answers: ReadonlyMap<string, string>;
  readonly questions: Question[];
  readonly columns: readonly ColumnRole[];
}

function targetOf(column: ColumnRole, asking: Asking): Target {
  const { role } = column;
  switch (role.role) {
    case 'ignored':
      return { to: 'nothing', why: role.why };
    case 'time':
      return { to: 'nothing', why: say('the notebook keeps days, not times of day') };
    case 'note':
      return plainTarget(
        namesake(column, asking) ?? noteColumn(asking.notebook),
        null,
        say('this notebook has no column for notes'),
      );
    case 'column':
      return role.day && role.day.day === null
        ? { to: 'wait' }
        : plainTarget(
            columnByKey(asking.notebook, role.key),
            role.day?.day ?? null,
            say('this notebook has no column for {name}', { name: role.key }),
          );
    case 'weight':
    case 'count':
    case 'epg':
      return role.day && role.day.day === null ? { to: 'wait' } : numberTarget(column, asking);
    default:
      return { to: 'row', role: role.role };
  }
}

function numberTarget(column: ColumnRole, asking: Asking): Target {
  const { role } = column;
  const day = 'day' in role ? (role.day?.day ?? null) : null;
  const own = namesake(column, asking);
  if (own) return plainTarget(own, day, '', role.role === 'weight' ? role.unit : null);
  if (role.role === 'weight') {
    const weight = columnsOf(asking.notebook).find(({ kind }) => kind === 'weight');
    return plainTarget(weight, day, say('this notebook has no column for weights'), role.unit);
  }
  return role.role === 'count' ? countTarget(day, asking) : epgTarget(day, asking);
}

/** A column of the notebook that is called just so, and can be typed into. */
function namesake({ header, role }: ColumnRole, { notebook }: Asking): Column | undefined {
  const heading = header.trim().toLowerCase();
  if (heading === '' || ('day' in role && role.day)) return undefined;
  const found =
    columnByKey(notebook, heading) ??
    columnsOf(notebook).find(({ label }) => label && plainHeading(label) === plainHeading(heading));
  return found && found.kind !== 'formula' && found.kind !== 'outcome' ? found : undefined;
}

function noteColumn(notebook: Notebook): Column | undefined {
  return (
    columnByKey(notebook, 'note') ?? columnsOf(notebook).find((column) => column.kind === 'text')
  );
}

function plainTarget(
  column: Column | undefined,
  day: DayId | null,
  whyNone: string,
  unit: 'kg' | 'lb' | null = null,
): Target {
  if (!column) return { to: 'nothing', why: whyNone };
  if (column.kind === 'outcome' || (column.kind === 'formula' && !column.typedOver))
    return { to: 'nothing', why: say('the notebook works this out itself') };
  return { to: 'readings', column, day, as: 'typed', unit };
}

/** The column that a single count of a cup goes into: the first one of strongyle-type eggs. */
export function countColumn(notebook: Notebook): Column | undefined {
  const counts = columnsOf(notebook).filter(
    ({ kind, otherEggs }) => kind === 'count' && !otherEggs,
  );
  return counts.find(({ key }) => key === 'chamber1') ?? counts[0];
}

function countTarget(day: DayId | null, asking: Asking): Target {
  const { notebook } = asking;
  const column = countColumn(notebook);
  if (!column) return { to: 'nothing', why: say('this notebook has no column for counts') };
  const protocol = protocolOn(notebook, day);
  const areas = protocol.areas ?? 1;
  if (areas === 1 || !factorColumn(notebook))
    return { to: 'readings', column, day, as: 'count', unit: null };
  const factor = factorOf(notebook, day);
  const single = factorOf(notebook, day, 1);
  const chosen = answerTo(asking, {
    id: 'count',
    kind: 'count-areas',
    columns: columnsOfRole(asking, 'count'),
    sentence: say(
      'Is each count of this list of {areas, plural, =2 {both counted areas} other {all # counted areas}} together, or of one?',
      { areas },
    ),
    choices: [
      { value: 'all', label: allAreasLabel(areas, factor, markOf(notebook)) },
      { value: 'one', label: oneAreaLabel(single, markOf(notebook)) },
    ],
    usual: 'all',
  });
  return { to: 'readings', column, day, as: 'count', allAreas: chosen !== 'one', unit: null };
}

function allAreasLabel(areas: number, factor: number | null, mark: DecimalMark): string {
  return factor === null
    ? say('{areas, plural, =2 {both areas} other {all # areas}} together', { areas })
    : say('{areas, plural, =2 {both areas} other {all # areas}} together: times {factor}', {
        areas,
        factor: shortNumber(factor, 2, mark),
      });
}

function oneAreaLabel(factor: number | null, mark: DecimalMark): string {
  return factor === null
    ? say('one area only')
    : say('one area only: times {factor}', { factor: shortNumber(factor, 2, mark) });
}

function epgTarget(day: DayId | null, asking: Asking): Target {
  const { notebook } = asking;
  const column = countColumn(notebook);
  const usual = factorOf(notebook, day);
  const canGoBack = column !== undefined && factorColumn(notebook) !== undefined;
  const shown = usual === null ? '50' : String(Number(usual.toFixed(2)));
  const question: Question = {
    id: 'epg',
    kind: 'epg-meaning',
    columns: columnsOfRole(asking, 'epg'),
    sentence: say(
      'Numbers of this list look like, or are called, eggs per gram. The notebook keeps the eggs seen: what are they?',
    ),
    choices: [
      ...(canGoBack
        ? [
            {
              value: `back:${shown}`,
              label: say('eggs per gram with a factor of {factor}: take them back to eggs', {
                factor: shown.replace('.', markOf(notebook)),
              }),
            },
          ]
        : []),
      {
        value: 'reported',
        label: say(
          'eggs per gram as reported: keep them in a column of their own, out of every figure',
        ),
      },
      { value: 'count', label: say('eggs seen, not eggs per gram') },
      { value: 'leave', label: say('leave them out') },
    ],
  };
  const given = asking.answers.get('epg') ?? '';
  const back = /^back:(\d+(?:[.,]\d+)?)$/.exec(given)?.[1];
  if (back !== undefined && column && canGoBack && Number(back.replace(',', '.')) > 0)
    return {
      to: 'readings',
      column,
      day,
      as: 'back',
      factor: Number(back.replace(',', '.')),
      unit: null,
    };
  const answer = answerTo(asking, question);
  if (answer === 'leave') return { to: 'nothing', why: say('left out, as you chose') };
  if (answer === 'count') return countTarget(day, asking);
  if (answer !== 'reported') return { to: 'wait' };
  const own = columnByKey(notebook, reportedColumn.key) ?? reportedColumn;
  return { to: 'readings', column: own, day, as: 'typed', unit: null };
}

/** Asks once for all columns; gives the answer, else the usual one. */
function answerTo({ answers, questions }: Asking, question: Question): string | undefined {
  const answer = question.choices.find(({ value }) => value === answers.get(question.id))?.value;
  if (answer !== undefined) return answer;
  if (!questions.some(({ id }) => id === question.id)) questions.push(question);
  return question.usual;
}

function columnsOfRole({ columns }: Asking, name: 'count' | 'epg'): readonly number[] {
  return columns.filter(({ role }) => role.role === name).map(({ column }) => column);
}

/** The column in which a row's own multiplication factor can be typed. */
export function factorColumn(notebook: Notebook): Column | undefined {
  const column = columnByKey(notebook, 'factor');
  return column && (column.typedOver || column.kind === 'number') ? column : undefined;
}

/** A factor as it is typed in a row. */
export function factorText(factor: number, mark: '.' | ','): string {
  return writeNumber(factor, mark);
}
