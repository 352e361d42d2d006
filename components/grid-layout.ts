import type { Column, Notebook } from '../shared/notebook.ts';
import type { DayId } from '../shared/ref.ts';
import { columnsOf, dayOf, daysOf } from '../src/notebook/read.ts';
import { dayWords } from '../src/text/day-words.ts';

/** How much of a day shows: all its columns, or its epg alone. */
export type Fold = 'columns' | 'figure';

/** One column of one sampling day, where it stands in pixels from the left of all days. */
export interface GridColumn {
  readonly day: DayId;
  readonly column: Column;
  readonly isOpen: boolean;
  /** Typing is possible: on the open day, in a column that is not worked out. */
  readonly isTypable: boolean;
  readonly left: number;
  readonly width: number;
}

/** A sampling day over its columns. */
export interface GridDay {
  readonly id: DayId;
  readonly name: string;
  readonly isOpen: boolean;
  readonly fold: Fold;
  readonly left: number;
  readonly width: number;
}

export interface GridLayout {
  readonly days: readonly GridDay[];
  readonly columns: readonly GridColumn[];
  /** Pixels, of the animal column and of everything. */
  readonly animalWidth: number;
  readonly width: number;
}

/** Height of the line of days, and of the line of column names: pixels. */
export const bandHeight = 40;
export const headHeight = 46;

const usualWidths: Readonly<Record<Column['kind'], number>> = {
  count: 96,
  part: 68,
  number: 76,
  weight: 74,
  score: 74,
  tick: 62,
  text: 190,
  choice: 96,
  formula: 92,
  outcome: 216,
};

/** On a phone: as many columns beside each other as can still be read and touched. */
const narrowWidths: Readonly<Record<Column['kind'], number>> = {
  ...usualWidths,
  count: 74,
  part: 64,
  number: 66,
  weight: 70,
  score: 64,
  tick: 60,
  choice: 96,
  formula: 82,
  outcome: 180,
};

export const narrowest = 52;
export const widest = 480;

/** A column that may be typed into: everything but what is worked out, unless it may be typed over. */
export function isTyped(column: Column): boolean {
  return column.kind === 'formula' ? column.typedOver === true : column.kind !== 'outcome';
}

/**
 * Columns of every day, oldest day first. The open day shows the columns not hidden, another day its
 * epg, unless `folds` says otherwise. What the criteria say is known of the open day alone. `scale`:
 * how much larger than usual text is written.
 */
export function layoutOf(
  notebook: Notebook,
  openDay: DayId | null,
  folds: ReadonlyMap<DayId, Fold>,
  animalWidth: number,
  isNarrow = false,
  widened: { readonly column: string | null; readonly width: number } | null = null,
  scale = 1,
): GridLayout {
  const shown = columnsOf(notebook).filter((column) => column.hidden !== true);
  const year = (openDay && dayOf(notebook, openDay)?.date.slice(0, 4)) ?? undefined;
  const columns: GridColumn[] = [];
  const days: GridDay[] = [];
  let left = animalWidth;
  for (const day of daysOf(notebook)) {
    const isOpen = day.id === openDay;
    const fold = folds.get(day.id) ?? (isOpen ? 'columns' : 'figure');
    const start = left;
    for (const column of columnsOfDay(notebook, shown, isOpen, fold)) {
      const own = widened?.column === column.id ? widened.width : widthOf(column, isNarrow);
      const usual = fold === 'figure' && !isOpen ? 88 : own;
      const width = Math.round(usual * scale);
      columns.push({
        day: day.id,
        column,
        isOpen,
        isTypable: isOpen && isTyped(column),
        left,
        width,
      });
      left += width;
    }
    const name = dayWords(day, isOpen ? 'long' : 'short', year);
    days.push({ id: day.id, name, isOpen, fold, left: start, width: left - start });
  }
  return { days, columns, animalWidth, width: left };
}

function columnsOfDay(
  notebook: Notebook,
  shown: readonly Column[],
  isOpen: boolean,
  fold: Fold,
): readonly Column[] {
  if (fold === 'figure') {
    const epg = columnsOf(notebook).find((column) => column.key === 'epg') ?? shown[0];
    return epg ? [epg] : [];
  }
  return isOpen ? shown : shown.filter((column) => column.kind !== 'outcome');
}

/** The column's own width, else what its kind, the words of its label and its unit need. */
export function widthOf(column: Column, isNarrow = false): number {
  const label = column.label ?? column.key;
  const longest = Math.max(...label.split(/\s+/).map((word) => word.length)) * 8.2 + 20;
  if (isNarrow) return Math.round(Math.min(200, Math.max(narrowWidths[column.kind], longest)));
  if (column.width !== undefined) return Math.min(widest, Math.max(narrowest, column.width));
  const inTwoLines = Math.max(longest, Math.ceil(label.length / 2) * 8.2 + 20);
  const unit = Math.min(130, (column.unit ?? '').length * 6.4 + 20);
  return Math.round(Math.min(widest, Math.max(usualWidths[column.kind], inTwoLines, unit)));
}

/** Whether label and unit each fit one line of the heading, so that both can be shown. */
export function hasRoomForUnit(column: Column, width: number): boolean {
  const label = column.label ?? column.key;
  return label.length * 8.2 + 20 <= width && (column.unit ?? '').length * 6.4 + 18 <= width;
}

/** Where a day's column stands; -1 when it does not show. */
export function columnIndex(layout: GridLayout, day: DayId, columnId: string): number {
  return layout.columns.findIndex((c) => c.day === day && c.column.id === columnId);
}
