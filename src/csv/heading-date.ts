import { type DateReading, dateReadings } from '../text/date-reading.ts';

/** A heading that names a day: all readings of its date, and the words that stand beside it. */
export interface HeadingDate {
  readonly readings: readonly DateReading[];
  readonly rest: string;
}

const monthName =
  'jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?';

const forms = [
  /\b\d{4}[-/.]\d{1,2}[-/.]\d{1,2}\b/,
  /\b\d{1,2}[-/.]\d{1,2}[-/.](?:\d{4}|\d{2})\b/,
  new RegExp(
    `\\b\\d{1,2}(?:st|nd|rd|th|\\.)?[ -]?(?:${monthName})\\.?,?[ -]?(?:\\d{4}|\\d{2})\\b`,
    'i',
  ),
  new RegExp(`\\b(?:${monthName})\\.? ?\\d{1,2}(?:st|nd|rd|th)?,? \\d{4}\\b`, 'i'),
  /^\d{8}$/,
];

/**
 * Finds a date in a heading: `2026-05-03`, `03/04/2026`, `2026-05-03 evening`, `FEC 3 May 2026`,
 * `kg 2026-05-03`. `null` where the heading holds none. `rest` is what stands beside the date,
 * without the punctuation between.
 */
export function headingDate(heading: string): HeadingDate | null {
  const text = heading.trim().replace(/\s+/g, ' ');
  for (const form of forms) {
    const found = form.exec(text);
    if (!found) continue;
    const readings = dateReadings(found[0]);
    if (readings.length === 0) continue;
    const before = text.slice(0, found.index);
    const behind = text.slice(found.index + found[0].length);
    const rest = `${before} ${behind}`
      .replace(/\s+/g, ' ')
      .replace(/^[\s()[\],:;–-]+|[\s()[\],:;–-]+$/g, '');
    return { readings, rest };
  }
  return null;
}
