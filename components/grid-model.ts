import type { Column } from '../shared/notebook.ts';
import type { ColumnId, DayId, RowId } from '../shared/ref.ts';
import type { Value } from '../shared/value.ts';
import { columnByKey, columnsOf, readingOf } from '../src/notebook/read.ts';
import { outcomeOf, type Outcome } from '../src/notebook/outcome.ts';
import type { Notice, Session } from '../src/session/session.ts';
import { cellSource, openOutcome } from './cell-source.ts';
import { cupState } from './cup-state.ts';
import { cellText, valueText, type CellSource, type CellText } from './grid-cell-text.ts';
import { layoutOf, type Fold, type GridColumn } from './grid-layout.ts';
import { PastFigures } from './grid-past.ts';
import type { Sheet } from './grid-place.ts';
import { GridView } from './grid-view.ts';
import {
  allRows,
  filteredRows,
  keptOrder,
  noFilter,
  plainSort,
  sortedRows,
  type Filter,
  type GridRow,
  type RowFigures,
  type Sort,
} from './grid-rows.ts';
import { say } from '../src/text/say.ts';

/** What the grid shows of the session: its rows and columns, and which of them to draw again. */
export class GridModel {
  private shown: Sheet;
  private everyRow: readonly GridRow[] = [];
  private everyRowById: ReadonlyMap<RowId, GridRow> = new Map();
  private readonly countedRows = new Set<RowId>();
  private readonly marks = new Map<RowId, number>();
  private readonly past: PastFigures;
  private mark = 0;
  private wideMark = 0;
  private day: DayId | null;
  private isNarrow = false;
  /** A column being dragged wider, not yet in the notebook. */
  private textScale = 1;
  private widened: { readonly column: ColumnId | null; readonly width: number } | null = null;
  /** Counts up with every change of rows, columns, sorting or filters. */
  revision = 0;
  /** Rows stand as they were sorted or filtered, though what was typed since would place them anew. */
  isOrderKept = false;

  constructor(
    readonly session: Session,
    private readonly changed: () => void,
    private readonly view = new GridView(),
  ) {
    this.view.follow(session.notebook.id);
    this.day = session.openDay;
    this.past = new PastFigures(session, () => {
      this.wideMark += 1;
      this.changed();
    });
    this.shown = { rows: [], rowIndex: new Map(), layout: this.layout() };
    this.rebuild('fresh');
  }

  get sheet(): Sheet {
    return this.shown;
  }

  get openDay(): DayId | null {
    return this.session.openDay;
  }

  /** All animals, shown or not. */
  get rows(): readonly GridRow[] {
    return this.everyRow;
  }

  get sort(): Sort {
    return this.view.sort;
  }

  get filter(): Filter {
    return this.view.filter;
  }

  get isSorted(): boolean {
    return this.sort.by !== 'order' || this.sort.isDescending;
  }

  get isFiltered(): boolean {
    return this.filter !== noFilter;
  }

  /** Changes whenever the row has to be drawn again. */
  markOf(row: RowId): number {
    return this.wideMark * 1e6 + (this.marks.get(row) ?? 0);
  }

  touch(row: RowId): void {
    this.mark += 1;
    this.marks.set(row, this.mark);
  }

  /** Takes in what happened in the session. */
  take(notice: Notice): void {
    const day = this.session.openDay;
    const hasDayChanged = day !== this.day;
    if (hasDayChanged) {
      if (this.day !== null) this.past.renew(this.day);
      this.day = day;
    }
    this.renewPast(notice);
    if (notice.isWide || hasDayChanged) {
      this.rebuild(hasDayChanged ? 'fresh' : 'keep order');
    } else {
      const touched = new Set(notice.refs.map((ref) => ref.row));
      for (const row of touched) {
        this.touch(row);
        this.count(row);
      }
      const isNewcomer = notice.refs.some(
        (ref) => ref.day === day && this.everyRowById.get(ref.row)?.isPresent === false,
      );
      if (isNewcomer) this.rebuild('keep order');
      else if ((this.isSorted || this.isFiltered) && !this.isOrderKept) {
        this.isOrderKept = true;
        this.revision += 1;
      }
    }
    this.changed();
  }

  private renewPast({ transaction, isWide }: Notice): void {
    for (const { path } of transaction?.changes ?? []) {
      const [table, id, field] = path;
      if (table === 'readings' && id !== this.day) this.past.renew(id);
      if (table === 'days') this.past.renew(id);
      if (isWide && rests(table, field)) this.past.renew();
    }
  }

  sortBy(sort: Sort): void {
    this.view.sort = sort;
    this.rebuild('fresh');
    this.changed();
  }

  filterBy(filter: Filter): void {
    this.view.filter = Object.values(filter).every((v) => v === '' || v === false || v === null)
      ? noFilter
      : filter;
    this.rebuild('fresh');
    this.changed();
  }

  /** Sorts and filters again by what stands there now. */
  sortAgain(): void {
    this.rebuild('fresh');
    this.changed();
  }

  fold(day: DayId, fold: Fold): void {
    this.view.folds.set(day, fold);
    this.rebuild('keep order');
    this.changed();
  }

  /** Whether the grid is as narrow as a phone. */
  get isPhone(): boolean {
    return this.isNarrow;
  }

  narrow(isNarrow: boolean): void {
    if (isNarrow === this.isNarrow) return;
    this.isNarrow = isNarrow;
    this.rebuild('keep order');
    this.changed();
  }

  /** How much larger than usual text is written; widths and heights grow with it. */
  get scale(): number {
    return this.textScale;
  }

  scaleTo(scale: number): void {
    if (scale === this.textScale) return;
    this.textScale = scale;
    this.shown = { ...this.shown, layout: this.layout() };
    this.changed();
  }

  /** Shows a column at a width that is only tried out; null ends that. */
  widen(column: ColumnId | null, width: number): void {
    this.widened = column === null ? null : { column, width };
    this.shown = { ...this.shown, layout: this.layout() };
    this.changed();
  }

  private rebuild(how: 'fresh' | 'keep order'): void {
    const { notebook } = this.session;
    this.wideMark += 1;
    this.revision += 1;
    const { by } = this.sort;
    if (typeof by !== 'string' && columnsOf(notebook).every(({ id }) => id !== by.column))
      this.view.sort = plainSort;
    this.everyRow = allRows(notebook, this.day);
    this.everyRowById = new Map(this.everyRow.map((row) => [row.id, row]));
    this.countedRows.clear();
    for (const row of this.everyRow) this.count(row.id);
    const figures: RowFigures = {
      value: (row, column) => this.session.engine.value(row, column),
      outcome: (row) => outcomeOf(notebook, this.day ?? '', this.session.engine.criteria(row)),
    };
    const passing = filteredRows(this.everyRow, this.filter, notebook, this.day, figures);
    const fresh = sortedRows(passing, this.sort, notebook, this.day, figures);
    const mayKeep = how === 'keep order' && (this.isSorted || this.isFiltered);
    const rows = mayKeep ? keptOrder(this.shown.rows, fresh, this.everyRow) : fresh;
    this.isOrderKept = mayKeep;
    const rowIndex = new Map(rows.map((row, at) => [row.id, at]));
    this.shown = { rows, rowIndex, layout: this.layout() };
  }

  private layout(): Sheet['layout'] {
    const longest = (of: (row: GridRow) => string): number =>
      this.everyRow.reduce((most, row) => Math.max(most, of(row).length), 0);
    const tag = longest((row) => row.tag) * 9.4;
    const group = longest((row) => row.group) * 7;
    const wide = this.isNarrow ? Math.max(tag, group) + 24 : tag + group + 40;
    const most = this.isNarrow ? 150 : 300;
    const animalWidth = Math.round(Math.min(most, Math.max(92, wide)) * this.textScale);
    const { notebook, openDay } = this.session;
    return layoutOf(
      notebook,
      openDay,
      this.view.folds,
      animalWidth,
      this.isNarrow,
      this.widened,
      this.textScale,
    );
  }

  outcome(row: RowId): Outcome | null {
    return openOutcome(this.session, row);
  }

  /** What the open day's cells of a row are drawn from. */
  source(row: RowId): CellSource {
    return cellSource(this.session, this.day ?? '', row);
  }

  cell(source: CellSource, column: GridColumn): CellText {
    if (column.isOpen) return cellText(source, column.column);
    return this.pastCell(source, column.day, column.column);
  }

  /** What a worked-out cell comes to; null also while it is not known yet. */
  value(row: RowId, { day, column, isOpen }: GridColumn): Value {
    return isOpen ? this.session.engine.value(row, column.id) : this.pastValue(day, row, column);
  }

  private pastCell(source: CellSource, day: DayId, column: Column): CellText {
    const cup = cupState(source.notebook, day, source.row);
    const past: CellSource = {
      ...source,
      day,
      cup,
      isTyping: false,
      value: (asked) => this.pastValue(day, source.row, asked),
      // The day's own protocol stands in for a bound's factor; nothing more is asked of the engine.
      valueOfKey: () => null,
    };
    if (column.kind === 'formula' && !readingOf(source.notebook, day, source.row, column.id)) {
      const figures = this.past.column(day, column.id);
      if (!figures)
        return { text: '', look: 'soft', align: 'end', spoken: say('being worked out') };
      if (!figures.has(source.row) && !cup.isBegun)
        return valueText(null, column, source.decimalMark);
    }
    return cellText(past, column);
  }

  private pastValue(day: DayId, row: RowId, column: Column): Value {
    return this.past.column(day, column.id)?.get(row) ?? null;
  }

  /** Animals of the open day with an epg, of those present: as the figures count them, a bound is no count. */
  get counted(): { readonly counted: number; readonly present: number } {
    const present = this.everyRow.reduce((sum, row) => sum + (row.isPresent ? 1 : 0), 0);
    return { counted: this.countedRows.size, present };
  }

  private count(row: RowId): void {
    if (this.day === null) return;
    const { notebook, engine } = this.session;
    const epg = columnByKey(notebook, 'epg');
    const isPresent = this.everyRowById.get(row)?.isPresent === true;
    if (epg && isPresent && typeof engine.value(row, epg.id) === 'number')
      this.countedRows.add(row);
    else this.countedRows.delete(row);
  }
}

/** Whether figures of other days rest on this: formulas, limits, cups. */
function rests(table: string, field: string): boolean {
  if (table === 'columns') return field === 'formula' || field === 'key' || field === 'removed';
  return table === 'limits' || table === 'settings' || table === 'cups' || table === 'figures';
}
