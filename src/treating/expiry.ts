import { fault, type Fault } from '../../shared/value.ts';
import { dateReadings } from '../text/date-reading.ts';
import { daysInMonth, isoDate } from '../text/date.ts';
import { say } from '../text/say.ts';

/**
 * The last day on which a product is in date. Labels print a whole date (`2027-03-31`, `31/03/2027`) or a month
 * (`2027-03`, `03/2027`, `03.2027`), which runs to its last day. What can be read in two ways
 * (`03/04/2027`, `03/27`) is asked about rather than guessed.
 */
export function lastGoodDay(expires: string): string | Fault {
  const text = expires.trim();
  const wholeDates = new Set(dateReadings(text).map(({ date }) => date));
  const [whole] = wholeDates;
  if (whole !== undefined && wholeDates.size === 1) return whole;
  const yearFirst = /^(\d{4})[-/. ](\d{1,2})$/.exec(text);
  const monthFirst = /^(\d{1,2})[-/. ](\d{4})$/.exec(text);
  const year = Number(yearFirst?.[1] ?? monthFirst?.[2] ?? 0);
  const month = Number(yearFirst?.[2] ?? monthFirst?.[1] ?? 0);
  return (
    isoDate(year, month, daysInMonth(year, month)) ??
    fault(
      'bad-expiry',
      say(
        '"{text}" is not an expiry date that can be read in one way. Type the month like 2027-03, or the day like 2027-03-31.',
        { text },
      ),
    )
  );
}

/** Whether a product is past its date on a day; `null` when no date that can be read was typed. */
export function isExpired(expires: string | undefined, on: string): boolean | null {
  if (expires === undefined || expires.trim() === '') return null;
  const last = lastGoodDay(expires);
  return typeof last === 'string' ? on > last : null;
}
