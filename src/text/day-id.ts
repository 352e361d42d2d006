import type { DayId } from '../../shared/ref.ts';
import { type Fault, fault } from '../../shared/value.ts';
import { type IsoDate, isDate } from './date.ts';
import { say } from './say.ts';

/** A sampling day's name in its parts. The label parts two samplings of one date. */
export interface DayName {
  readonly date: IsoDate;
  /** Small letters, digits and single dashes; empty where the date has one sampling. */
  readonly label: string;
}

/**
 * The id of a sampling day, the same on every device: the date, and the label in small letters with
 * dashes for spaces (`2026-05-03-evening`). A fault for a date that is none, or a label with marks
 * that an id cannot hold.
 */
export function dayId(date: string, label = ''): DayId | Fault {
  if (!isDate(date)) {
    return fault(
      'not-a-date',
      say('"{date}" is not a day of the calendar. Type it like 2026-05-03.', { date }),
    );
  }
  const plain = label
    .normalize('NFC')
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '-');
  const trimmed = plain.replace(/^-|-$/g, '');
  if (!/^[\p{L}\p{M}\p{N}-]*$/u.test(trimmed)) {
    return fault(
      'bad-day-label',
      say('"{label}" cannot name a sampling. Use letters, digits and spaces, like evening.', {
        label: label.trim(),
      }),
    );
  }
  return trimmed === '' ? date : `${date}-${trimmed}`;
}

/** Takes a day id apart; also reads it as shown, with a space before the label. */
export function parseDayId(text: string): DayName | Fault {
  const trimmed = text.trim();
  const date = trimmed.slice(0, 10);
  const rest = trimmed.slice(10);
  if (!isDate(date) || (rest !== '' && !/^[\s-]/.test(rest))) {
    return fault(
      'not-a-day',
      say('"{text}" is not a sampling day. Type it like 2026-05-03 or 2026-05-03 evening.', {
        text: trimmed,
      }),
    );
  }
  const id = dayId(date, rest);
  return typeof id === 'string' ? { date, label: id.slice(11) } : id;
}

/** A sampling day as people read it: `2026-05-03 evening`. */
export function showDayId(id: DayId): string {
  const date = id.slice(0, 10);
  const label = id.slice(11).replace(/-/g, ' ');
  return label === '' ? date : `${date} ${label}`;
}
