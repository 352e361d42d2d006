import { splitRows } from './split-rows.ts';
import type { Separator } from './table.ts';

/**
 * Marks that may part the fields, the likelier ones first: where a file splits evenly by two of
 * them, the comma is the likelier to be a decimal comma or part of a note.
 */
const candidates: readonly Separator[] = ['\t', ';', '|', ','];

/** Characters and records looked at. */
const sampleLength = 65_536;
const sampleRows = 200;

/** The mark named by a first line `sep=;` (as spreadsheets write it), or `null`. */
export function namedSeparator(text: string): Separator | null {
  const mark = /^sep=([^\r\n"])[;,\t|]*(?:\r\n|\n|\r|$)/i.exec(text)?.[1];
  return mark === undefined || /[\p{L}\p{N}]/u.test(mark) ? null : mark;
}

/**
 * Guesses the mark between the fields: the one by which the greatest share of the lines that are not
 * blank falls into equally many fields, two or more. A comma for a file of one column.
 */
export function findSeparator(text: string): Separator {
  const named = namedSeparator(text);
  if (named !== null) return named;
  const sample = wholeLines(text);
  let best: { mark: Separator; share: number } = { mark: ',', share: 0 };
  for (const mark of candidates) {
    const share = sample.includes(mark) ? evenShare(sample, mark) : 0;
    if (share > best.share) best = { mark, share };
  }
  return best.mark;
}

/** The beginning of the text, without a last line that is cut off. */
function wholeLines(text: string): string {
  if (text.length <= sampleLength) return text;
  const sample = text.slice(0, sampleLength);
  const end = Math.max(sample.lastIndexOf('\n'), sample.lastIndexOf('\r'));
  return end > 0 ? sample.slice(0, end + 1) : sample;
}

/** The share of the records with the commonest number of fields above one. */
function evenShare(sample: string, mark: Separator): number {
  const widths = new Map<number, number>();
  let records = 0;
  for (const { cells } of splitRows(sample, mark)) {
    if (cells.every((cell) => cell.trim() === '')) continue;
    if (records === sampleRows) break;
    records++;
    if (cells.length > 1) widths.set(cells.length, (widths.get(cells.length) ?? 0) + 1);
  }
  return records === 0 ? 0 : Math.max(0, ...widths.values()) / records;
}
