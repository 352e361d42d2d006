import type { Way } from './grid-keys.ts';
import type { GridLayout } from './grid-layout.ts';
import type { Place, Sheet, Spot } from './grid-place.ts';

/** Where a move ends; the edges hold, nothing wraps. `page` is the whole rows in sight. */
export function moved(sheet: Sheet, from: Spot, way: Way, page: number): Spot {
  const lastRow = Math.max(0, sheet.rows.length - 1);
  const lastColumn = Math.max(0, sheet.layout.columns.length - 1);
  const step = Math.max(1, page - 1);
  const to = ((): Spot => {
    switch (way) {
      case 'left':
        return { ...from, column: from.column - 1 };
      case 'right':
        return { ...from, column: from.column + 1 };
      case 'up':
        return { ...from, row: from.row - 1 };
      case 'down':
        return { ...from, row: from.row + 1 };
      case 'row start':
        return { ...from, column: 0 };
      case 'row end':
        return { ...from, column: lastColumn };
      case 'top':
        return { row: 0, column: 0 };
      case 'bottom':
        return { row: lastRow, column: lastColumn };
      case 'page up':
        return { ...from, row: from.row - step };
      case 'page down':
        return { ...from, row: from.row + step };
    }
  })();
  return {
    row: Math.min(lastRow, Math.max(0, to.row)),
    column: Math.min(lastColumn, Math.max(0, to.column)),
  };
}

/** The next cell of the row that can be typed into; the same cell when there is none. */
export function nextTypable(sheet: Sheet, from: Spot, by: 1 | -1): Spot {
  const { columns } = sheet.layout;
  for (let column = from.column + by; column >= 0 && column < columns.length; column += by)
    if (columns[column]?.isTypable) return { ...from, column };
  return from;
}

/**
 * The next cell that `isWanted`, going one way from (and without) this one: down and up in the
 * column, left and right in the row. Null when there is none.
 */
export function nextWanted(
  sheet: Sheet,
  from: Spot,
  way: 'left' | 'right' | 'up' | 'down',
  isWanted: (spot: Spot) => boolean,
): Spot | null {
  const [dRow, dColumn] = { left: [0, -1], right: [0, 1], up: [-1, 0], down: [1, 0] }[way] as [
    number,
    number,
  ];
  for (
    let spot = { row: from.row + dRow, column: from.column + dColumn };
    spot.row >= 0 &&
    spot.row < sheet.rows.length &&
    spot.column >= 0 &&
    spot.column < sheet.layout.columns.length;
    spot = { row: spot.row + dRow, column: spot.column + dColumn }
  )
    if (isWanted(spot)) return spot;
  return null;
}

/** Where counting begins: the first count of the open day, else the first column to type in. */
export function firstCount({ columns }: GridLayout): number {
  const count = columns.findIndex((c) => c.isTypable && c.column.kind === 'count');
  const typable = columns.findIndex((c) => c.isTypable);
  return Math.max(0, count >= 0 ? count : typable);
}

/**
 * What takes the place of a cell that no longer shows: the same animal where it is still there, in the
 * column of its day that stands where the cell's stood, or nearest to it; the first count of the open day
 * where its day shows no more.
 */
export function insteadOf(sheet: Sheet, gone: Place | null, last: Spot): Spot {
  const row = gone ? (sheet.rowIndex.get(gone.row) ?? last.row) : 0;
  const { columns } = sheet.layout;
  const from = columns.findIndex(({ day }) => day === gone?.day);
  const to = columns.findLastIndex(({ day }) => day === gone?.day);
  return {
    row: Math.min(row, sheet.rows.length - 1),
    column: from < 0 ? firstCount(sheet.layout) : Math.min(to, Math.max(from, last.column)),
  };
}
