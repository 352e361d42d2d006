import type {
  CriterionAnswer,
  Engine,
  Explanation,
  FigureAnswer,
  FigureAsked,
} from '../../shared/derived.ts';
import type { Change } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import type { ColumnId, DayId, Ref, RowId } from '../../shared/ref.ts';
import { fault, isFault, type Fault, type Value } from '../../shared/value.ts';
import { emptyNotebook } from '../notebook/from-template.ts';
import { presentAnimals } from '../notebook/present.ts';
import { columnsOf } from '../notebook/read.ts';
import { Book, type RowCellChange } from './book.ts';
import { effectOf, type Effect } from './change-effect.ts';
import { checkFormula } from './check-formula.ts';
import { explainCell } from './explain.ts';
import { answerFigure, figureNeeds, figureWork } from './figures.ts';
import { newCalculator } from './formula-plugin.ts';
import { judgeRow } from './judge.ts';
import { looseFigure, looseRow, looseText } from './loose-formula.ts';
import { dayNodeKey, idOf } from './node.ts';
import { inOneGo, inSlices, nextTurn, type Pause } from './pause.ts';
import { openDayRoots } from './plan.ts';
import { Season } from './season.ts';
import { Slots } from './slots.ts';
import { parseStored } from './stored-formula.ts';
import { say } from '../text/say.ts';

/** An engine with nothing in it; `pause` lets the page breathe between slices of long work. */
export function createEngine(pause: Pause = nextTurn): Engine {
  return new BookEngine(pause);
}

/** The ref's column where the notebook shows no outcome: only "the criteria changed" is meant. */
const NO_OUTCOME = 'outcome';

/**
 * The open day in a `Book`, other days by way of a `Season`. What changes the book goes through one queue, so
 * that an edit typed while a day is loading is taken in after it, in order.
 */
class BookEngine implements Engine {
  private notebook: Notebook = emptyNotebook('');
  private day: DayId = '';
  private opened: Book | null = null;
  private readonly season: Season;
  private queue: Promise<unknown> = Promise.resolve();
  private opening = 0;
  /** The row asked to be held back last; the book follows with what it takes in next. */
  private typing: RowId | null = null;
  private slots = new Slots();

  constructor(private readonly pause: Pause) {
    this.season = new Season(pause);
  }

  /** The open day's book; before any day is open, an empty one for formulas that name nothing. */
  private get book(): Book {
    return (this.opened ??= new Book(this.notebook, [], this.slots));
  }

  open(notebook: Notebook, day: DayId): Promise<void> {
    const turn = ++this.opening;
    return this.inTurn(async () => {
      if (turn !== this.opening) return;
      if (notebook.id !== this.notebook.id) this.slots = new Slots();
      const calculator = newCalculator();
      await this.pause();
      const book = new Book(notebook, openDayRoots(notebook, day), this.slots, calculator);
      await this.pause();
      const loaded = await inSlices(book.load(), this.pause, () => turn === this.opening);
      if (loaded === null) {
        book.close();
        return;
      }
      this.opened?.close();
      this.opened = book;
      this.notebook = notebook;
      this.day = day;
    });
  }

  apply(notebook: Notebook, changes: readonly Change[]): Promise<readonly Ref[]> {
    const effect = effectOf(changes);
    this.season.forget(effect);
    return this.inTurn(async () => {
      this.notebook = notebook;
      if (this.day === '') return [];
      const { book } = this;
      const written = effect.isStructural
        ? await inSlices(book.reload(notebook, openDayRoots(notebook, this.day)), this.pause)
        : await inSlices(this.takeIn(book, notebook, effect), this.pause);
      return this.refs(written ?? [], effect.rows.keys());
    });
  }

  holdBack(row: RowId | null): Promise<readonly Ref[]> {
    this.typing = row;
    return this.inTurn(() => {
      if (this.day === '' || this.typing === this.book.heldRow) return [];
      return this.refs(this.book.holdBack(this.day, this.typing), []);
    });
  }

  value(row: RowId, column: ColumnId): Value {
    return this.book.rowValue(this.day, row, `c:${column}`);
  }

  criteria(row: RowId): readonly CriterionAnswer[] {
    return this.day === '' ? [] : judgeRow(this.notebook, this.book, this.day, row);
  }

  async dayColumn(
    notebook: Notebook,
    day: DayId,
    column: ColumnId,
  ): Promise<ReadonlyMap<RowId, Value>> {
    await this.queue;
    const node = `c:${column}` as const;
    const { book } = this;
    if (notebook !== this.notebook || !book.plan.nodes.has(dayNodeKey({ day, node })))
      return this.season.column(notebook, day, column);
    const rows = presentAnimals(notebook, day).map(({ id }): [RowId, Value] => [
      id,
      book.rowValue(day, id, node),
    ]);
    return new Map(rows);
  }

  async figures(
    asked: readonly FigureAsked[],
    signal?: AbortSignal,
  ): Promise<readonly FigureAnswer[]> {
    await this.queue;
    signal?.throwIfAborted();
    const answers = new Map<FigureAsked, FigureAnswer>();
    const onOpenDay = asked.filter((one) => one.day === this.day);
    await this.openDayFigures(onOpenDay, answers, signal);
    const otherDays = new Set(asked.map((one) => one.day).filter((day) => day !== this.day));
    for (const day of otherDays) {
      const ofDay = asked.filter((one) => one.day === day);
      const found = await this.season.figuresOf(this.notebook, day, ofDay, signal);
      ofDay.forEach((one, i) => answers.set(one, found[i] as FigureAnswer));
    }
    return asked.map((one) => answers.get(one) as FigureAnswer);
  }

  evaluate(shown: string, row?: RowId): Value {
    const { notebook, book, day } = this;
    const syntax = parseStored(notebook, shown);
    if (isFault(syntax)) return syntax;
    const place = { notebook, kinds: book.plan.kinds, layout: book.layout, day };
    const slot = row === undefined ? null : book.slotOf(row);
    if (slot === undefined) return fault('no-animal', say('That animal is not in this notebook.'));
    const compiled = slot === null ? looseFigure(syntax, place, null) : looseRow(syntax, place);
    if (isFault(compiled)) return compiled;
    if (!book.has(compiled.needs)) inOneGo(book.extend(compiled.needs));
    return book.ask(day, looseText(compiled, slot));
  }

  check(shown: string, place: 'column' | 'figure' | 'criterion', ownKey?: string): Fault | null {
    return checkFormula(this.notebook, this.day, shown, place, ownKey);
  }

  explain(row: RowId, column: ColumnId): Explanation | null {
    return explainCell(this.notebook, this.book, this.day, row, column);
  }

  /** Does work after all that was asked for before; a failure does not stop what comes after. */
  private inTurn<T>(work: () => T | Promise<T>): Promise<T> {
    const turn = this.queue.then(work);
    this.queue = turn.then(
      () => undefined,
      () => undefined,
    );
    return turn;
  }

  private *takeIn(
    book: Book,
    notebook: Notebook,
    effect: Effect,
  ): Generator<void, RowCellChange[]> {
    const heads = effect.isHead ? book.refeedHeads(notebook) : [];
    const rows = new Map(effect.rows);
    // A count typed by leaving its row: what was held back comes free with it, worked out in one go.
    for (const row of book.hold(this.typing)) {
      const days = rows.get(row);
      if (days !== null) rows.set(row, new Set([...(days ?? []), this.day]));
    }
    return [...heads, ...(yield* book.refeed(notebook, rows))];
  }

  /** Figures of the open day, one slice each; days that they name stay loaded while it is open. */
  private async openDayFigures(
    asked: readonly FigureAsked[],
    answers: Map<FigureAsked, FigureAnswer>,
    signal: AbortSignal | undefined,
  ): Promise<void> {
    for (const one of asked) {
      const needs = figureNeeds(figureWork(this.notebook, this.book, one));
      if (!this.book.has(needs))
        await this.inTurn(() => inSlices(this.book.extend(needs), this.pause));
      signal?.throwIfAborted();
      // Planned anew: an edit taken in meanwhile may have changed what the formula's names mean.
      answers.set(one, answerFigure(this.book, figureWork(this.notebook, this.book, one)));
      await this.pause();
      signal?.throwIfAborted();
    }
  }

  private refs(written: readonly RowCellChange[], touched: Iterable<RowId>): readonly Ref[] {
    const { day } = this;
    const outcome =
      columnsOf(this.notebook).find((column) => column.kind === 'outcome')?.id ?? NO_OUTCOME;
    const refs = new Map<string, Ref>();
    const add = (row: RowId, column: ColumnId): void => {
      refs.set(`${row}\n${column}`, { day, row, column });
    };
    for (const change of written) {
      if (change.day !== day) continue;
      if (change.node.startsWith('c:')) add(change.row, idOf(change.node));
      if (change.node.startsWith('k:')) add(change.row, outcome);
    }
    // What was typed may settle a criterion by its bound without any cell of the engine changing.
    for (const row of touched) add(row, outcome);
    return [...refs.values()];
  }
}
