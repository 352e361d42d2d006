import Papa from 'papaparse';
import { writeNumber } from '../text/decimal-text.ts';
import { guardedTag, guardedText } from './guard.ts';

/**
 * One cell to write. A number stays one; text is guarded against being run as a formula; a tag also
 * against being turned into a number or a date; `null` is missing and leaves the cell empty.
 */
export type WriteCell = string | number | null | { readonly tag: string };

/** `comma`: fields parted by commas, decimal point. `semicolon`: by semicolons, decimal comma. */
export type WriteStyle = 'comma' | 'semicolon';

export interface WriteOptions {
  readonly style: WriteStyle;
  /**
   * `guarded` (for people with a spreadsheet): a `'` in front of tags that it would change.
   * `plain` (for databases): tags as they are. Reading takes the guard off in either case.
   */
  readonly tags?: 'guarded' | 'plain';
}

/**
 * Writes rows as CSV that a spreadsheet opens rightly: UTF-8 with its mark (to be encoded as UTF-8
 * by whoever saves it), CRLF, quotes where needed, cells guarded. Read back it gives the same texts
 * and numbers.
 *
 * @param rows the header first; every row with as many cells as the header.
 */
export function writeTable(
  rows: readonly (readonly WriteCell[])[],
  { style, tags = 'guarded' }: WriteOptions,
): string {
  const mark = style === 'comma' ? '.' : ',';
  const text = (cell: WriteCell): string => {
    if (cell === null) return '';
    if (typeof cell === 'number') return writeNumber(cell, mark);
    if (typeof cell === 'string') return guardedText(cell);
    return tags === 'guarded' ? guardedTag(cell.tag) : guardedText(cell.tag);
  };
  const body = Papa.unparse(
    rows.map((cells) => cells.map(text)),
    {
      delimiter: style === 'comma' ? ',' : ';',
      newline: '\r\n',
      // Unquoted on the first line this would name a separator.
      quotes: (value: unknown) => typeof value === 'string' && /^sep=/i.test(value),
    },
  );
  return `\ufeff${body}\r\n`;
}
