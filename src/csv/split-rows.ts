import Papa from 'papaparse';
import { repairRows, type SplitRow } from './repair-rows.ts';
import type { Separator } from './table.ts';

const noStray: SplitRow['stray'] = [];

/**
 * Splits a text into records and cells, by RFC 4180 and what is found in the wild: any line end
 * (`\n`, `\r\n`, `\r`, also mixed), line ends in quoted cells, spaces around quotes. Real line
 * numbers throughout. One pass, never throws, loses no character but quotes and separators.
 *
 * A sound file goes through papaparse. Where quotes do not pair it would swallow the lines up to the
 * next quote, and where line ends are mixed it would leave some in the cells: such files go through
 * {@link repairRows}, which gives the same rows for a sound file.
 */
export function splitRows(text: string, separator: Separator): readonly SplitRow[] {
  return splitSound(text, separator) ?? repairRows(text, separator);
}

/** The rows of a file in which all is in order; `null` for any other. */
export function splitSound(text: string, separator: Separator): readonly SplitRow[] | null {
  const lineEnd = onlyLineEnd(text);
  if (lineEnd === null || text === '' || text.startsWith('\ufeff')) return null;
  const hasQuotes = text.includes('"');
  if (hasQuotes && spacedQuote(separator).test(text)) return null;
  const { data, errors } = Papa.parse<string[]>(text, {
    delimiter: separator,
    newline: lineEnd,
    quoteChar: '"',
    skipEmptyLines: false,
  });
  if (errors.length > 0) return null;
  if (text.endsWith(lineEnd)) data.pop();
  let line = 1;
  return data.map((cells) => {
    const lastLine = hasQuotes ? line + countOf(lineEnd, cells) : line;
    const row = { line, lastLine, cells, stray: noStray };
    line = lastLine + 1;
    return row;
  });
}

/** Which of the three line ends the text has, `\n` where it has none; `null` where it mixes them. */
function onlyLineEnd(text: string): '\n' | '\r\n' | '\r' | null {
  if (!text.includes('\r')) return '\n';
  if (!text.includes('\n')) return '\r';
  return /(?<!\r)\n|\r(?!\n)/.test(text) ? null : '\r\n';
}

/** A quote led in by spaces: papaparse takes it for text, the repairing reader for a quote. */
function spacedQuote(separator: string): RegExp {
  const mark = separator.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  return new RegExp(`(?:^|[\\r\\n]|${mark}) +"`);
}

function countOf(lineEnd: string, cells: readonly string[]): number {
  let count = 0;
  for (const cell of cells) {
    for (let at = cell.indexOf(lineEnd); at !== -1; at = cell.indexOf(lineEnd, at + 1)) count++;
  }
  return count;
}
