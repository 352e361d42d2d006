import { fault, isFault, type Fault } from '../../shared/value.ts';
import { addDays, isDate } from '../text/date.ts';
import { say } from '../text/say.ts';

/** One all-day entry. */
export interface CalendarEntry {
  /** Unique for ever, and the same each time the same thing is exported, so that it replaces itself. */
  readonly uid: string;
  readonly date: string;
  /** The last day it runs to; the same day for one day. */
  readonly lastDate: string;
  readonly title: string;
  readonly description: string;
}

/**
 * A calendar file (`.ics`) of all-day entries: CRLF line ends, lines folded at 75 bytes, text escaped.
 *
 * `made` is the moment of making in UTC, `20260503T074500Z`, given from outside. All-day entries have
 * dates and no time zone, so they stand on the same day everywhere; the end is the day after the last.
 * Faults: a date that is none, a moment in another form.
 *
 * Source: RFC 5545 (Desruisseaux 2009), sections 3.1 (folding), 3.3.11 (text), 3.6.1 (event), 3.8.2.2 (end).
 */
export function calendarFile(entries: readonly CalendarEntry[], made: string): string | Fault {
  if (!/^\d{8}T\d{6}Z$/.test(made))
    return fault('bad-moment', `"${made}" is not a moment in UTC like 20260503T074500Z.`);
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Sampling Daybook//Follow-ups//EN',
    'CALSCALE:GREGORIAN',
  ];
  for (const entry of entries) {
    const end = isDate(entry.date) ? addDays(entry.lastDate, 1) : notADate(entry.date);
    if (isFault(end)) return end;
    lines.push(
      'BEGIN:VEVENT',
      `UID:${escaped(entry.uid)}`,
      `DTSTAMP:${made}`,
      `DTSTART;VALUE=DATE:${entry.date.replaceAll('-', '')}`,
      `DTEND;VALUE=DATE:${end.replaceAll('-', '')}`,
      `SUMMARY:${escaped(entry.title)}`,
      `DESCRIPTION:${escaped(entry.description)}`,
      'TRANSP:TRANSPARENT',
      'END:VEVENT',
    );
  }
  lines.push('END:VCALENDAR');
  return lines.map((line) => `${folded(line)}\r\n`).join('');
}

function notADate(text: string): Fault {
  return fault(
    'not-a-date',
    say('"{date}" is not a day of the calendar. Type it like 2026-05-03.', { date: text }),
  );
}

function escaped(text: string): string {
  return text
    .replace(/\\/g, '\\\\')
    .replace(/;/g, '\\;')
    .replace(/,/g, '\\,')
    .replace(/\r\n|\r|\n/g, '\\n');
}

const MOST_BYTES = 75;

/** Folds at 75 bytes of UTF-8, never inside a character; each further line begins with a space. */
function folded(line: string): string {
  let out = '';
  let bytes = 0;
  for (const character of line) {
    const size = utf8Size(character);
    if (bytes + size > MOST_BYTES) {
      out += '\r\n ';
      bytes = 1;
    }
    out += character;
    bytes += size;
  }
  return out;
}

function utf8Size(character: string): number {
  const point = character.codePointAt(0) ?? 0;
  if (point < 0x80) return 1;
  if (point < 0x800) return 2;
  return point < 0x10000 ? 3 : 4;
}
