import type { Figure } from '../shared/notebook.ts';
import type { ColumnId, RowId } from '../shared/ref.ts';
import { isFault, type Value } from '../shared/value.ts';
import { toShown } from '../src/engine/stored-formula.ts';
import {
  animalOf,
  columnByKey,
  columnOf,
  dayOf,
  figuresOf,
  markOf,
  readingOf,
} from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { dayWords } from '../src/text/day-words.ts';
import { listsIn, withFigureValues, type NamedValues } from './figure-origin.ts';
import { typedShown, wordShown } from './cell-words.ts';
import { figureText } from './figure-text.ts';
import { figureWords } from './figure-words.ts';
import { say } from '../src/text/say.ts';

/** What a person may ask of: a cell of the open day, or a figure of a group or (null) of all animals. */
export type OriginTarget =
  | { readonly kind: 'cell'; readonly row: RowId; readonly column: ColumnId }
  | { readonly kind: 'figure'; readonly figure: string; readonly group: string | null };

/** A name of the formula, what it held, and where that in turn comes from. */
export interface OriginInput {
  readonly key: string;
  readonly label: string;
  readonly text: string;
  readonly target: OriginTarget | null;
}

/** Where one figure comes from, ready to be shown. */
export interface Origin {
  readonly heading: string;
  readonly day: string;
  readonly answer: string;
  /** In current names; null for what was typed. */
  readonly formula: string | null;
  readonly withValues: string | null;
  /** `35 of 39 animals present have what it needs` */
  readonly ofN: string | null;
  readonly inputs: readonly OriginInput[];
  readonly lists: readonly NamedValues[];
  /** Names of functions, for their help cards. */
  readonly functions: readonly string[];
  /** What was typed, exactly, and what the column is for. */
  readonly typed: string | null;
  readonly help: string;
}

/** Null where the target is gone, or no day is open. */
export async function originOf(session: Session, target: OriginTarget): Promise<Origin | null> {
  const { notebook, openDay } = session;
  const day = openDay === null ? undefined : dayOf(notebook, openDay);
  if (!day) return null;
  if (target.kind === 'cell') return cellOrigin(session, target, day.id, dayWords(day));
  const figure = figuresOf(notebook).find(({ id }) => id === target.figure);
  return figure ? figureOrigin(session, figure, target.group, day.id, dayWords(day)) : null;
}

function cellOrigin(
  session: Session,
  { row, column: columnId }: Extract<OriginTarget, { kind: 'cell' }>,
  dayId: string,
  day: string,
): Origin | null {
  const { notebook, engine } = session;
  const column = columnOf(notebook, columnId);
  const animal = animalOf(notebook, row);
  if (!column || !animal) return null;
  const words = valueWords(session, column.decimals);
  const reading = readingOf(notebook, dayId, row, columnId);
  const value = engine.value(row, columnId);
  const explained = engine.explain(row, columnId);
  const unit = column.unit ? ` ${column.unit}` : '';
  return {
    heading: `${animal.tag}: ${column.label ?? column.key}`,
    day,
    answer: value === null || isFault(value) ? words(value) : `${words(value)}${unit}`,
    formula: explained?.formula ?? null,
    withValues: explained?.withValues ?? null,
    ofN: null,
    inputs: (explained?.inputs ?? []).map((input) => ({
      key: input.key,
      label: columnByKey(notebook, input.key)?.label ?? '',
      text: typeof input.value === 'string' ? wordShown(input, input.value) : words(input.value),
      target: targetOf(session, row, input.key),
    })),
    lists: explained ? listsIn(session, explained.formula, null) : [],
    functions: explained?.functions ?? [],
    typed: reading ? typedShown(column, reading) : null,
    help: column.help ?? '',
  };
}

/** Own-row names lead on to their own cells; what happened on other days does not. */
function targetOf(session: Session, row: RowId, key: string): OriginTarget | null {
  const column = columnByKey(session.notebook, key.toLowerCase());
  return column ? { kind: 'cell', row, column: column.id } : null;
}

async function figureOrigin(
  session: Session,
  figure: Figure,
  group: string | null,
  dayId: string,
  day: string,
): Promise<Origin> {
  const { notebook, engine } = session;
  const formula = toShown(notebook, figure.formula).replace(/^\s*=\s*/, '');
  const [answer] = await engine.figures([{ formula: figure.formula, day: dayId, group }]);
  const mark = markOf(notebook);
  const said = answer ? figureWords(figure, answer, [], mark) : { text: '–', under: '' };
  const counted = answer?.counted ?? null;
  const unit = figure.unit && said.text !== '–' ? ` ${figure.unit}` : '';
  return {
    heading: figure.label ?? figure.key,
    day: group === null ? say('{day}, all animals', { day }) : `${day}, ${group}`,
    answer: said.fault ?? `${said.text}${unit}`,
    formula,
    withValues: withFigureValues(session, formula, group),
    ofN:
      counted === null || !answer
        ? null
        : answer.present === 0
          ? say('none of the animals it is about is there on this day')
          : say('from {counted} of {present} animals present', {
              counted,
              present: answer.present,
            }),
    inputs: [],
    lists: listsIn(session, formula, group),
    functions: [
      ...new Set(
        [...formula.matchAll(/([A-Z][A-Z0-9.]*)\s*\(/gi)].map((m) => (m[1] ?? '').toUpperCase()),
      ),
    ],
    typed: null,
    help: '',
  };
}

function valueWords(session: Session, decimals: number | undefined): (value: Value) => string {
  const mark = markOf(session.notebook);
  return (value) => {
    if (value === null) return say('missing');
    if (isFault(value)) return value.sentence;
    if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
    if (typeof value === 'string') return value;
    return figureText(value, Number.isInteger(value) ? 0 : decimals, mark);
  };
}
