import type { Fault } from '../../shared/value.ts';
import type { Encoding } from './decode.ts';

/** The mark between the fields of a line. Mostly `,` `;` tab or `|`; `sep=` may name another. */
export type Separator = string;

/** One record of a file. A quoted cell may hold line ends, so a row may span several lines. */
export interface Row {
  /** First and last line of the file that the row stands on, counted from 1. */
  readonly line: number;
  readonly lastLine: number;
  /** As written, without the quotes and guards of the file format; not trimmed. */
  readonly cells: readonly string[];
}

/**
 * A problem at a place in a file. `refused` says what is left out because of it: the row, the cell,
 * the whole file, or nothing (a warning: all is kept). `text` holds a refused row as it stands in
 * the file, so that a preview can show it.
 */
export interface TableFault extends Fault {
  readonly line: number;
  readonly lastLine: number;
  /** Counted from 0. Absent where the whole line is meant. */
  readonly column?: number;
  readonly refused: 'file' | 'row' | 'cell' | 'nothing';
  readonly text?: string;
}

/**
 * A file as rows of text. Every line that is not blank is in exactly one of `header`, `preamble`,
 * `rows` and the faults that refuse a row.
 *
 * Headings stay a list, never keys of an object: two may be equal, blank, or called `__proto__`.
 */
export interface Table {
  /** One per column, as written; all empty where the file has no header. */
  readonly headers: readonly string[];
  readonly header: Row | null;
  /** Titles, a `sep=` line and whatever else stands above the header or the first row. */
  readonly preamble: readonly Row[];
  /** Each with as many cells as there are headers; short rows are filled up with empty cells. */
  readonly rows: readonly Row[];
  readonly faults: readonly TableFault[];
  readonly separator: Separator;
  readonly encoding: Encoding;
}
