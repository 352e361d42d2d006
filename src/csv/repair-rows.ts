import type { Row, Separator } from './table.ts';

/** One record, blank ones too. */
export interface SplitRow extends Row {
  /** Cells whose quotes do not pair (from 0), each with its line; they are kept as written. */
  readonly stray: readonly { readonly column: number; readonly line: number }[];
}

const quote = 34;
const lineFeed = 10;
const carriageReturn = 13;
const space = 32;

/**
 * Splits any text into records, also one with quotes that do not pair. A quoted cell must end before
 * a separator or a line end (spaces between are left out). If it does not, it is kept as written,
 * quotes and all, and marked stray:
 *
 * - `"big" ewe`: up to the next separator after the quote that came too early;
 * - `"5` with no fitting quote on its line: up to the next separator of that line, so that the rows
 *   below stay rows.
 *
 * Linear in the length of the text: a search for the end of a cell stops at the first quote that
 * does not fit, and the next cell begins its own search no earlier than there.
 */
export function repairRows(text: string, separator: Separator): readonly SplitRow[] {
  const rows: SplitRow[] = [];
  const mark = separator.charCodeAt(0);
  const end = text.length;
  let at = 0;
  let line = 1;

  while (at < end) {
    const cells: string[] = [];
    const stray: { column: number; line: number }[] = [];
    const first = line;
    for (;;) {
      const cell = readCell(text, at, mark);
      if (cell.stray) stray.push({ column: cells.length, line });
      cells.push(cell.text);
      line += cell.lineEnds;
      at = cell.after;
      if (at >= end || text.charCodeAt(at) !== mark) break;
      at++;
    }
    rows.push({ line: first, lastLine: line, cells, stray });
    line++;
    at += text.charCodeAt(at) === carriageReturn && text.charCodeAt(at + 1) === lineFeed ? 2 : 1;
  }
  return rows;
}

interface CellRead {
  readonly text: string;
  /** Place of the separator or line end that follows, or of the end of the text. */
  readonly after: number;
  readonly lineEnds: number;
  readonly stray: boolean;
}

function readCell(text: string, start: number, mark: number): CellRead {
  const open = skipSpaces(text, start, mark);
  if (text.charCodeAt(open) !== quote) {
    const after = plainEnd(text, start, mark);
    return { text: text.slice(start, after), after, lineEnds: 0, stray: false };
  }
  let lineEnds = 0;
  let hasDoubled = false;
  let at = open + 1;
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === quote) {
      if (text.charCodeAt(at + 1) !== quote) break;
      hasDoubled = true;
      at++;
    } else if (
      code === lineFeed ||
      (code === carriageReturn && text.charCodeAt(at + 1) !== lineFeed)
    ) {
      lineEnds++;
    }
  }
  const after = skipSpaces(text, at + 1, mark);
  if (at < text.length && isEnd(text, after, mark)) {
    const inner = text.slice(open + 1, at);
    return {
      text: hasDoubled ? inner.replaceAll('""', '"') : inner,
      after,
      lineEnds,
      stray: false,
    };
  }
  // The quote came too early on the same line, or on a later line, or never.
  const strayEnd = plainEnd(text, lineEnds === 0 && at < text.length ? at + 1 : start, mark);
  return { text: text.slice(start, strayEnd), after: strayEnd, lineEnds: 0, stray: true };
}

function skipSpaces(text: string, start: number, mark: number): number {
  let at = start;
  while (mark !== space && text.charCodeAt(at) === space) at++;
  return at;
}

function isEnd(text: string, at: number, mark: number): boolean {
  if (at >= text.length) return true;
  const code = text.charCodeAt(at);
  return code === mark || code === lineFeed || code === carriageReturn;
}

function plainEnd(text: string, start: number, mark: number): number {
  let at = start;
  while (!isEnd(text, at, mark)) at++;
  return at;
}
