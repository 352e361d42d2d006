import { type Fault, fault } from '../../shared/value.ts';
import { type IsoDate, isoDate } from './date.ts';
import { say } from './say.ts';

/** The order in which a date of numbers is written: year, month, day in one order or another. */
export type DateOrder = 'ymd' | 'dmy' | 'mdy';

/** One way to read a text as a date. */
export interface DateReading {
  readonly date: IsoDate;
  /** `any`: the text can be read in one way only, whatever order the person is used to. */
  readonly order: DateOrder | 'any';
  /** A time of day that stood behind the date, as written. */
  readonly time?: string;
}

const months = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
];

const timeBehind =
  /^(.*?\d)(?:T|,?\s+)(\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?\s?(?:[ap]\.?m\.?)?\s?(?:Z|[+-]\d{2}:?\d{2})?)$/i;
const weekdayBefore =
  /^(?:mon|tue|tues|wed|wednes|thu|thur|thurs|fri|sat|satur|sun)(?:day)?\.?,?\s+/i;

/**
 * All ways to read a text as a date: none for a text that is no date, one where it is clear, two or
 * more where it is doubtful (`03/04/2026` is 3 April or 4 March). Nothing is chosen here: a doubtful
 * column is put to the person once.
 *
 * Read are `2026-05-03`, `2026-5-3`, `20260503`, `03/04/2026`, `3.4.26`, `1 March 2026`,
 * `Mar 1, 2026`, `1-Mar-26`, a weekday in front, and a time of day behind (kept as written, never
 * moved to another zone). Two-digit years are 1980 to 2079 (own choice).
 */
export function dateReadings(text: string): readonly DateReading[] {
  const trimmed = text.trim().replace(/\s+/g, ' ');
  const timed = timeBehind.exec(trimmed);
  const time = timed?.[2];
  const bare = (timed?.[1] ?? trimmed).replace(weekdayBefore, '');
  const readings = yearFirst(bare) ?? numbers(bare) ?? namedMonth(bare) ?? [];
  const dates = new Set(readings.map((reading) => reading.date));
  // 3/3/2026 is the same day either way.
  const [first] = readings;
  const distinct =
    dates.size === 1 && readings.length > 1 && first
      ? [{ date: first.date, order: 'any' as const }]
      : readings;
  return time === undefined ? distinct : distinct.map((reading) => ({ ...reading, time }));
}

/** Reads a date written in a known order; clear dates are read whatever the order. */
export function readDate(text: string, order: DateOrder | 'any'): DateReading | Fault {
  const readings = dateReadings(text);
  const found =
    readings.find((reading) => reading.order === 'any') ??
    readings.find((reading) => reading.order === order);
  if (found) return found;
  const shown = text.trim();
  if (/^\d{5}(?:[.,]\d+)?$/.test(shown)) {
    return fault(
      'not-a-date',
      say(
        '"{text}" is a spreadsheet\'s own number for a day. Show the column as dates there and save it again.',
        { text: shown },
      ),
    );
  }
  if (readings.length > 0) {
    return fault(
      'not-a-date',
      say(
        '"{text}" is not a date with {order, select, dmy {the day first} mdy {the month first} ymd {the year first} other {its parts in any order}}.',
        { text: shown, order },
      ),
    );
  }
  return fault(
    'not-a-date',
    say('"{text}" is not a day of the calendar. Write year, month, day like 2026-05-03.', {
      text: shown,
    }),
  );
}

/** The order as a person would say it. */
export function orderInWords(order: DateOrder | 'any'): string {
  if (order === 'dmy') return say('the day first');
  if (order === 'mdy') return say('the month first');
  if (order === 'ymd') return say('the year first');
  return say('its parts in any order');
}

function yearFirst(text: string): DateReading[] | null {
  const parts =
    /^(\d{4})([-/. ])(\d{1,2})\2(\d{1,2})\.?$/.exec(text) ?? /^(\d{4})()(\d{2})(\d{2})$/.exec(text);
  if (!parts) return null;
  const date = isoDate(Number(parts[1]), Number(parts[3]), Number(parts[4]));
  return date === null ? [] : [{ date, order: 'any' }];
}

function numbers(text: string): DateReading[] | null {
  const parts = /^(\d{1,2})(\s?[-/. ]\s?)(\d{1,2})\2(\d{4}|\d{2})\.?$/.exec(text);
  if (!parts) return null;
  const [, first = '', , second = '', last = ''] = parts;
  const year = fullYear(last);
  const readings: DateReading[] = [];
  const add = (date: IsoDate | null, order: DateOrder): void => {
    if (date !== null) readings.push({ date, order });
  };
  add(isoDate(year, Number(second), Number(first)), 'dmy');
  add(isoDate(year, Number(first), Number(second)), 'mdy');
  if (last.length === 2 && first.length === 2 && second.length === 2) {
    add(isoDate(fullYear(first), Number(second), Number(last)), 'ymd');
  }
  return readings;
}

function namedMonth(text: string): DateReading[] | null {
  const dayFirst = /^(\d{1,2})(?:st|nd|rd|th|\.)?[ -]?([a-z]{3,9})\.?,?[ -]?(\d{4}|\d{2})$/i.exec(
    text,
  );
  const monthFirst = /^([a-z]{3,9})\.?[ -]?(\d{1,2})(?:st|nd|rd|th)?(?:,? |-)(\d{4}|\d{2})$/i.exec(
    text,
  );
  const yearBefore = /^(\d{4})[ -]([a-z]{3,9})\.?[ -](\d{1,2})$/i.exec(text);
  const [day, name, year] = dayFirst
    ? [dayFirst[1], dayFirst[2], dayFirst[3]]
    : monthFirst
      ? [monthFirst[2], monthFirst[1], monthFirst[3]]
      : [yearBefore?.[3], yearBefore?.[2], yearBefore?.[1]];
  if (day === undefined || name === undefined || year === undefined) return null;
  const lower = name.toLowerCase() === 'sept' ? 'sep' : name.toLowerCase();
  const month = months.findIndex((full) => full === lower || full.slice(0, 3) === lower) + 1;
  if (month === 0) return null;
  const date = isoDate(fullYear(year), month, Number(day));
  return date === null ? [] : [{ date, order: 'any' }];
}

function fullYear(digits: string): number {
  const year = Number(digits);
  if (digits.length > 2) return year;
  return year < 80 ? 2000 + year : 1900 + year;
}
