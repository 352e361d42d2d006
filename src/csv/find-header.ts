import { dateReadings } from '../text/date-reading.ts';
import { electronicNumber } from '../text/electronic-number.ts';
import { isDestroyedNumber } from '../text/tag.ts';
import { headingDate } from './heading-date.ts';
import { headingMeaning } from './heading-words.ts';

/** Where the header and the rows begin among records that are not blank. */
export interface HeaderPlace {
  /** Index of the header; `null` where the file begins with rows at once. */
  readonly header: number | null;
  /** Index of the first row. All before it, but the header, is preamble. */
  readonly firstRow: number;
}

/** How many records from the top are looked at. */
const reach = 30;

/**
 * Finds the header, which need not be on top: titles and addresses may stand above it, and files of
 * readers and scales have none at all.
 *
 * The line with the most known headings is the header (a word for the tag weighs most). Where no
 * line has any, the first line as wide as most are is taken: for a header if its cells are unlike
 * those below, else for a row.
 *
 * @param isHeading whether a text is a heading known besides the common ones: a column's own name.
 */
export function findHeader(
  records: readonly (readonly string[])[],
  isHeading: (text: string) => boolean,
): HeaderPlace {
  const top = records.slice(0, reach);
  let best = { at: 0, score: 0 };
  top.forEach((cells, at) => {
    const score = headingScore(cells, isHeading);
    if (score > best.score) best = { at, score };
  });
  if (best.score > 0) return { header: best.at, firstRow: best.at + 1 };

  const data = top.findIndex((cells, at) => isDataLike(cells, top[at + 1]));
  const width = commonestWidth(top);
  const wide = Math.max(
    0,
    top.findIndex((cells) => filledWidth(cells) === width),
  );
  if (data !== -1 && data <= wide) return { header: null, firstRow: data };
  return records.length === 0
    ? { header: null, firstRow: 0 }
    : { header: wide, firstRow: wide + 1 };
}

/** Each meaning counts once; a number or an electronic tag in the line speaks against it. */
function headingScore(cells: readonly string[], isHeading: (text: string) => boolean): number {
  const found = new Set<string>();
  let score = 0;
  let dates = 0;
  for (const cell of cells) {
    const text = cell.trim();
    // A single letter stands in cells as often as above them: n for no, m for male.
    if (text.length < 2) continue;
    const meaning = headingMeaning(text)?.meaning ?? (isHeading(text) ? text : null);
    if (meaning === null) {
      if (headingDate(text) !== null) dates++;
      else if (isNumber(text) || electronicNumber(text) !== null) score -= 2;
    } else if (!found.has(meaning)) {
      found.add(meaning);
      score += meaning === 'tag' || meaning === 'electronic' ? 3 : 1;
    }
  }
  // Dates alone may be a row's; beside a known word they are headings too.
  return score <= 0 ? 0 : score + Math.min(dates, 50) / 100;
}

function isNumber(text: string): boolean {
  return /^[<>-]?\d+(?:[.,]\d+)?$/.test(text);
}

/** A cell that a heading would not be: a number, an electronic tag, or shaped like the one below. */
function isDataLike(cells: readonly string[], below: readonly string[] | undefined): boolean {
  return cells.some((cell, column) => {
    const text = cell.trim();
    if (electronicNumber(text) !== null || isDestroyedNumber(text)) return true;
    const under = below?.[column]?.trim() ?? '';
    if (isNumber(text)) return under === '' || /\d/.test(under);
    if (dateReadings(text).length > 0) return dateReadings(under).length > 0;
    return /\d/.test(text) && shape(text) === shape(under);
  });
}

function shape(text: string): string {
  return text.replace(/\d+/g, '9').replace(/\p{L}+/gu, 'a');
}

function filledWidth(cells: readonly string[]): number {
  let width = cells.length;
  while (width > 0 && cells[width - 1]?.trim() === '') width--;
  return width;
}

function commonestWidth(records: readonly (readonly string[])[]): number {
  const widths = new Map<number, number>();
  for (const cells of records) {
    const width = filledWidth(cells);
    widths.set(width, (widths.get(width) ?? 0) + 1);
  }
  let commonest = 0;
  for (const [width, count] of widths) {
    const most = widths.get(commonest) ?? 0;
    if (count > most || (count === most && width > commonest)) commonest = width;
  }
  return commonest;
}
