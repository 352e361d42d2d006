import { type Fault, fault, isFault } from '../../shared/value.ts';
import { say } from './say.ts';

/**
 * Dates are text, `2026-05-03`, from file to file. No date object is made from one: such an object
 * is a moment, and the same moment is another day elsewhere.
 */
export type IsoDate = string;

const isoForm = /^(\d{4})-(\d{2})-(\d{2})$/;
const firstYear = 1900;
const lastYear = 2199;

/** Days of a month in the Gregorian calendar; 0 for a month that does not exist. */
export function daysInMonth(year: number, month: number): number {
  if (month === 2) {
    const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
    return leap ? 29 : 28;
  }
  if (month < 1 || month > 12) return 0;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

/** `2026-05-03` from its numbers; `null` where the calendar has no such day from 1900 to 2199. */
export function isoDate(year: number, month: number, day: number): IsoDate | null {
  if (year < firstYear || year > lastYear) return null;
  if (day < 1 || day > daysInMonth(year, month)) return null;
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${year}-${two(month)}-${two(day)}`;
}

/** Whether the text is a day of the calendar, 1900 to 2199, written `YYYY-MM-DD` and nothing else. */
export function isDate(text: string): boolean {
  return dayNumber(text) !== null;
}

/**
 * Days since 1 January 1970, counted on the calendar; `null` for a text that is no date.
 *
 * The count is the usual one over 400-year cycles of 146,097 days with March as first month.
 */
function dayNumber(text: string): number | null {
  const parts = isoForm.exec(text);
  if (!parts) return null;
  const [year, month, day] = parts.slice(1).map(Number) as [number, number, number];
  if (isoDate(year, month, day) === null) return null;
  const y = month <= 2 ? year - 1 : year;
  const cycle = Math.floor(y / 400);
  const yearOfCycle = y - cycle * 400;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  const dayOfCycle =
    yearOfCycle * 365 + Math.floor(yearOfCycle / 4) - Math.floor(yearOfCycle / 100) + dayOfYear;
  return cycle * 146_097 + dayOfCycle - 719_468;
}

function fromDayNumber(number: number): IsoDate | null {
  const shifted = number + 719_468;
  const cycle = Math.floor(shifted / 146_097);
  const dayOfCycle = shifted - cycle * 146_097;
  const yearOfCycle = Math.floor(
    (dayOfCycle -
      Math.floor(dayOfCycle / 1_460) +
      Math.floor(dayOfCycle / 36_524) -
      Math.floor(dayOfCycle / 146_096)) /
      365,
  );
  const dayOfYear =
    dayOfCycle - (365 * yearOfCycle + Math.floor(yearOfCycle / 4) - Math.floor(yearOfCycle / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1;
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  return isoDate(yearOfCycle + cycle * 400 + (month <= 2 ? 1 : 0), month, day);
}

function notADate(text: string): Fault {
  return fault(
    'not-a-date',
    say('"{text}" is not a day of the calendar. Type year, month, day like 2026-05-03.', { text }),
  );
}

/** The date so many whole days later, or earlier for a negative number. */
export function addDays(date: string, days: number): IsoDate | Fault {
  const from = dayNumber(date);
  if (from === null) return notADate(date);
  if (!Number.isInteger(days))
    return fault('not-whole-days', say('{days} is not a whole number of days.', { days }));
  return (
    fromDayNumber(from + days) ??
    fault(
      'date-out-of-range',
      say('{days} days from {date} is not between 1900 and 2199.', { days, date }),
    )
  );
}

/** Whole days from one date to another; negative where the second is earlier. */
export function daysBetween(from: string, to: string): number | Fault {
  const first = dayNumber(from);
  const second = dayNumber(to);
  if (first === null) return notADate(from);
  if (second === null) return notADate(to);
  return second - first;
}

const weekdays = [
  'Monday',
  'Tuesday',
  'Wednesday',
  'Thursday',
  'Friday',
  'Saturday',
  'Sunday',
] as const;
export type Weekday = (typeof weekdays)[number];

/** The day of the week. 1 January 1970 was a Thursday. */
export function weekday(date: string): Weekday | Fault {
  const number = dayNumber(date);
  if (number === null) return notADate(date);
  return weekdays[(((number + 3) % 7) + 7) % 7] as Weekday;
}

/**
 * The first clear day after a withdrawal of so many days: the day of treatment is day 0 and the
 * last day of the withdrawal has to pass, so date + days + 1 (1 June and 10 days: 12 June). A typed
 * 0 is no withdrawal: the day itself.
 */
export function clearDate(date: string, days: number): IsoDate | Fault {
  if (!isDate(date)) return notADate(date);
  if (!Number.isInteger(days) || days < 0) {
    return fault(
      'not-whole-days',
      say('A withdrawal is a whole number of days, 0 or more, as the label or the vet says.'),
    );
  }
  const clear = addDays(date, days === 0 ? 0 : days + 1);
  return isFault(clear)
    ? fault(
        'date-out-of-range',
        say('{days} days is longer than any withdrawal. Check the number.', { days }),
      )
    : clear;
}
