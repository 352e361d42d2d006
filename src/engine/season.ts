import type { FigureAnswer, FigureAsked } from '../../shared/derived.ts';
import type { Notebook } from '../../shared/notebook.ts';
import type { ColumnId, DayId, RowId } from '../../shared/ref.ts';
import type { Value } from '../../shared/value.ts';
import { presentAnimals } from '../notebook/present.ts';
import { Book } from './book.ts';
import type { Effect } from './change-effect.ts';
import { answerFigure, figureNeeds, figureWork } from './figures.ts';
import type { NodeKey } from './node.ts';
import { inSlices, type Pause } from './pause.ts';
import { Slots } from './slots.ts';

/** Answers kept at most; a season of a few figures fits many times over. */
const MOST_KEPT = 400;

interface Kept<T> {
  readonly answer: T;
  readonly tables: readonly unknown[];
  readonly readings: ReadonlyMap<DayId, unknown>;
}

/**
 * Answers about days that are not open: each day is loaded with just what the question needs, answered and
 * dropped, and the answer kept until something that it rests on changes.
 */
export class Season {
  private readonly columns = new Map<string, Kept<ReadonlyMap<RowId, Value>>>();
  private readonly figures = new Map<string, Kept<FigureAnswer>>();

  constructor(private readonly pause: Pause) {}

  /** Forgets the answers that the changes may have made wrong. */
  forget({ isStructural, isHead, rows, days }: Effect): void {
    const isWide = isStructural || isHead || [...rows.values()].some((only) => only === null);
    for (const answers of [this.columns, this.figures]) {
      for (const [key, { readings }] of answers)
        if (isWide || [...days].some((day) => readings.has(day))) answers.delete(key);
    }
  }

  /** One column of a day, for every animal present. */
  async column(
    notebook: Notebook,
    day: DayId,
    column: ColumnId,
  ): Promise<ReadonlyMap<RowId, Value>> {
    const key = `${day}\n${column}`;
    const kept = this.columns.get(key);
    if (kept && isCurrent(notebook, kept)) return kept.answer;
    const node: NodeKey = `c:${column}`;
    const book = new Book(notebook, [{ day, node }], new Slots());
    const before = tablesOf(notebook);
    await inSlices(book.load(), this.pause);
    const answer = new Map<RowId, Value>();
    for (const { id } of presentAnimals(notebook, day))
      answer.set(id, book.rowValue(day, id, node));
    keep(this.columns, key, { answer, tables: before, readings: readingsOf(notebook, book) });
    book.close();
    return answer;
  }

  /** Figures of one day that is not open. */
  async figuresOf(
    notebook: Notebook,
    day: DayId,
    asked: readonly FigureAsked[],
    signal?: AbortSignal,
  ): Promise<readonly FigureAnswer[]> {
    const keys = asked.map(({ formula, group }) => `${day}\n${group ?? ''}\n${formula}`);
    const known = keys.map((key) => {
      const kept = this.figures.get(key);
      return kept && isCurrent(notebook, kept) ? kept.answer : null;
    });
    if (known.every((answer) => answer !== null)) return known;
    const before = tablesOf(notebook);
    const book = new Book(notebook, [], new Slots());
    try {
      const works = asked.map((one) => figureWork(notebook, book, one));
      const load = book.extend(works.flatMap(figureNeeds));
      await inSlices(load, this.pause, () => signal?.aborted !== true);
      signal?.throwIfAborted();
      const answers: FigureAnswer[] = [];
      for (const [i, work] of works.entries()) {
        const answer = answerFigure(book, work);
        keep(this.figures, keys[i] ?? '', {
          answer,
          tables: before,
          readings: readingsOf(notebook, book),
        });
        answers.push(answer);
        await this.pause();
        signal?.throwIfAborted();
      }
      return answers;
    } finally {
      book.close();
    }
  }
}

function keep<T>(answers: Map<string, Kept<T>>, key: string, kept: Kept<T>): void {
  if (answers.size >= MOST_KEPT) answers.clear();
  answers.set(key, kept);
}

/** Whether the notebook still is, table by table, the one that was asked. */
function isCurrent(notebook: Notebook, { tables, readings }: Kept<unknown>): boolean {
  const now = tablesOf(notebook);
  return (
    tables.every((table, i) => table === now[i]) &&
    [...readings].every(([day, rows]) => notebook.readings[day] === rows)
  );
}

function tablesOf(notebook: Notebook): readonly unknown[] {
  const { animals, groups, columns, days, limits, settings, figures, defaults } = notebook;
  const { treatments, products } = notebook;
  return [
    ...[animals, groups, columns, days, limits, settings, figures, defaults],
    ...[treatments, products],
  ];
}

function readingsOf(notebook: Notebook, book: Book): ReadonlyMap<DayId, unknown> {
  return new Map([...book.plan.byDay.keys()].map((day) => [day, notebook.readings[day]]));
}
