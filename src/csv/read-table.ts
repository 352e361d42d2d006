import { decode, type Decoded } from './decode.ts';
import { findHeader } from './find-header.ts';
import { findSeparator, namedSeparator } from './find-separator.ts';
import { unguarded } from './guard.ts';
import type { SplitRow } from './repair-rows.ts';
import { splitRows } from './split-rows.ts';
import {
  damagedLetters,
  extraFields,
  fileFault,
  missingFields,
  mixedEncoding,
  repeatedHeader,
  strayQuotes,
  swallowedLines,
} from './table-faults.ts';
import type { Row, Separator, Table, TableFault } from './table.ts';

/** What a person, or a program, says of the file where the guess is wrong. */
export interface ReadOptions {
  readonly separator?: Separator;
  /** The line that the header stands on, from 1; `none` where the file begins with rows. */
  readonly headerLine?: number | 'none';
  /** Headings known besides the common ones: the notebook's own columns. */
  readonly isHeading?: (text: string) => boolean;
}

/**
 * Reads a list from anywhere as rows of text: bytes of a file, or a text that was pasted. Finds
 * encoding, separator and header; keeps titles above the header, duplicate and blank headings, real
 * line numbers; drops only lines that hold nothing.
 *
 * Rows with more fields than the header are refused (shifted cells would put numbers into wrong
 * columns), rows with fewer are filled up and named, cells with stray quotes are kept as written and
 * named. Never throws. 100,000 rows are one pass.
 */
export function readTable(input: Uint8Array | string, options: ReadOptions = {}): Table {
  const decoded: Decoded =
    typeof input === 'string'
      ? { text: input.replace(/^\ufeff/, ''), encoding: 'utf-8', hadMark: false, oddLines: [] }
      : decode(input);
  const { text, encoding } = decoded;
  const wrongFile = typeof input === 'string' ? null : fileFault(input);
  if (wrongFile !== null) {
    const none = { headers: [], header: null, preamble: [], rows: [], separator: ',' };
    return { ...none, faults: [wrongFile], encoding };
  }

  const separator = options.separator ?? findSeparator(text);
  const split = splitRows(text, separator);
  const records = split.map(withoutGuards).filter((row) => !isBlank(row));
  const directive = namedSeparator(text) === null ? [] : records.slice(0, 1);
  const place = placeOf(records.slice(directive.length), options);
  const firstRow = place.firstRow + directive.length;
  const header = place.header === null ? null : (records[place.header + directive.length] ?? null);
  const preamble = records.slice(0, firstRow).filter((row) => row !== header);

  const body = records.slice(firstRow);
  const width = header?.cells.length ?? body.reduce((most, row) => Math.max(most, filled(row)), 0);
  const needed = header ? filled(header) : 0;
  const faults: TableFault[] = [
    ...mixedEncoding(decoded),
    ...records.flatMap((row) => strayQuotes(row)),
    ...(text.includes('\ufffd') ? records.flatMap((row) => damagedLetters(row)) : []),
  ];
  const rows: Row[] = [];
  for (const row of body) {
    if (filled(row) > width) {
      faults.push(extraFields(row, width, separator));
    } else if (header !== null && isSame(row.cells, header.cells)) {
      faults.push(repeatedHeader(row, header.line, separator));
    } else {
      if (row.cells.length < needed) faults.push(missingFields(row, needed));
      faults.push(...swallowedLines(row, width, separator));
      rows.push(fitted(row, width));
    }
  }
  faults.sort((a, b) => a.line - b.line);
  return {
    headers: header ? header.cells : Array<string>(width).fill(''),
    header: header && plain(header),
    preamble: preamble.map(plain),
    rows,
    faults,
    separator,
    encoding,
  };
}

function placeOf(
  records: readonly SplitRow[],
  options: ReadOptions,
): { header: number | null; firstRow: number } {
  const { headerLine } = options;
  if (headerLine === 'none') return { header: null, firstRow: 0 };
  if (headerLine !== undefined) {
    const at = records.findIndex(
      ({ line, lastLine }) => line <= headerLine && headerLine <= lastLine,
    );
    if (at !== -1) return { header: at, firstRow: at + 1 };
  }
  const cells = records.map((record) => record.cells);
  return findHeader(cells, options.isHeading ?? (() => false));
}

function isBlank(row: Row): boolean {
  return row.cells.every((cell) => cell.trim() === '');
}

function withoutGuards(row: SplitRow): SplitRow {
  return row.cells.some((cell) => cell.startsWith("'"))
    ? { ...row, cells: row.cells.map(unguarded) }
    : row;
}

/** The number of cells up to the last that holds something. */
function filled(row: Row): number {
  let width = row.cells.length;
  while (width > 0 && row.cells[width - 1]?.trim() === '') width--;
  return width;
}

function fitted(row: Row, width: number): Row {
  const { line, lastLine, cells } = row;
  if (cells.length === width) return plain(row);
  const fill = Array<string>(Math.max(0, width - cells.length)).fill('');
  return { line, lastLine, cells: [...cells.slice(0, width), ...fill] };
}

function plain({ line, lastLine, cells }: Row): Row {
  return { line, lastLine, cells };
}

function isSame(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((cell, at) => cell === b[at]);
}
