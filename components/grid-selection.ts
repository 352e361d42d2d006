import {
  blockBetween,
  spotOf,
  type Block,
  type Place,
  type Sheet,
  type Spot,
} from './grid-place.ts';

/** What Shift+Space and its like select, beside the cells between two corners. */
export type Reach = 'cells' | 'rows' | 'columns' | 'all';

/** What is selected around the cell that has the focus: up to another corner, whole rows, whole columns, or all. */
export class GridSelection {
  private corner: Place | null = null;
  private reach: Reach = 'cells';

  /** Nothing but this cell is selected; the next corner counts from it. */
  only(place: Place | null): void {
    this.upTo(place);
    this.reach = 'cells';
  }

  /** Selects the cells between this one and the one that has the focus. */
  upTo(corner: Place | null): void {
    this.corner = corner;
  }

  widen(reach: Reach): void {
    this.reach = reach;
  }

  block(sheet: Sheet, spot: Spot): Block {
    const { rows, layout } = sheet;
    const corner = (this.corner && spotOf(sheet, this.corner)) ?? spot;
    const block = blockBetween(corner, spot);
    const all: Block = { rows: [0, rows.length - 1], columns: [0, layout.columns.length - 1] };
    if (this.reach === 'all') return all;
    if (this.reach === 'rows') return { ...block, columns: all.columns };
    if (this.reach === 'columns') return { ...block, rows: all.rows };
    return block;
  }
}

/** How many cells a block has. */
export function cellsIn({ rows, columns }: Block): number {
  return (rows[1] - rows[0] + 1) * (columns[1] - columns[0] + 1);
}
