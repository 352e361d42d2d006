import type { ColumnId, DayId, RowId } from '../shared/ref.ts';
import { columnIndex, type GridLayout } from './grid-layout.ts';
import type { GridRow } from './grid-rows.ts';

/** One cell by what it is about, so that it stays the same when rows are sorted or scrolled away. */
export interface Place {
  readonly row: RowId;
  readonly day: DayId;
  readonly column: ColumnId;
}

/** The same cell by where it stands now; both from 0. */
export interface Spot {
  readonly row: number;
  readonly column: number;
}

/** Rows and columns in `[from, to]`, both ends taken in. */
export interface Block {
  readonly rows: readonly [number, number];
  readonly columns: readonly [number, number];
}

/** What is on the screen at this moment, in order. */
export interface Sheet {
  readonly rows: readonly GridRow[];
  readonly rowIndex: ReadonlyMap<RowId, number>;
  readonly layout: GridLayout;
}

export function samePlace(a: Place | null, b: Place | null): boolean {
  if (a === null || b === null) return a === b;
  return a.row === b.row && a.day === b.day && a.column === b.column;
}

/** Null when the cell does not show: its row is filtered out, its column hidden. */
export function spotOf(sheet: Sheet, place: Place): Spot | null {
  const row = sheet.rowIndex.get(place.row);
  const column = columnIndex(sheet.layout, place.day, place.column);
  return row === undefined || column < 0 ? null : { row, column };
}

export function placeAt(sheet: Sheet, spot: Spot): Place | null {
  const row = sheet.rows[spot.row];
  const column = sheet.layout.columns[spot.column];
  return row && column ? { row: row.id, day: column.day, column: column.column.id } : null;
}

/** The block between two cells, whichever of them is first. */
export function blockBetween(a: Spot, b: Spot): Block {
  return {
    rows: [Math.min(a.row, b.row), Math.max(a.row, b.row)],
    columns: [Math.min(a.column, b.column), Math.max(a.column, b.column)],
  };
}
