import { guardedText, unguarded } from './guard.ts';
import { splitRows } from './split-rows.ts';
import { strayQuotes } from './table-faults.ts';
import type { Row, TableFault } from './table.ts';

/** A block of cells from the clipboard, as wide everywhere as its widest row. */
export interface Block {
  readonly rows: readonly Row[];
  readonly width: number;
  /** Cells with quotes that do not pair: kept as written, named by line. */
  readonly faults: readonly TableFault[];
}

/**
 * Reads cells copied in a spreadsheet or in the grid: tabs between cells, line ends between rows,
 * quotes around cells that hold either. Blank rows stay, since a place in a block is a place in the
 * grid; the line end behind the last row makes no further one.
 */
export function readBlock(text: string): Block {
  const split = splitRows(text.replace(/^\ufeff/, '').replace(/\0+$/, ''), '\t');
  const width = split.reduce((most, row) => Math.max(most, row.cells.length), 0);
  const rows = split.map(({ line, lastLine, cells }) => ({
    line,
    lastLine,
    cells: [...cells.map(unguarded), ...Array<string>(width - cells.length).fill('')],
  }));
  return { rows, width, faults: split.flatMap((row) => strayQuotes(row)) };
}

/** Writes cells for the clipboard; {@link readBlock} gives the same cells back. */
export function writeBlock(rows: readonly (readonly string[])[]): string {
  const lines = rows.map((cells) => cells.map(written).join('\t'));
  // Without this line end a last row of one empty cell would be no row.
  return lines.join('\n') + (lines.at(-1) === '' ? '\n' : '');
}

function written(cell: string): string {
  const guarded = guardedText(cell);
  return /[\t\r\n]|^ *"|^ +$/.test(guarded) ||
    guarded.startsWith('\ufeff') ||
    guarded.endsWith('\0')
    ? `"${guarded.replaceAll('"', '""')}"`
    : guarded;
}
