import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { addDays, clearDate, daysBetween, isDate, isoDate, weekday } from '../../src/text/date.ts';
import { dateReadings, readDate } from '../../src/text/date-reading.ts';
import { dayId, parseDayId, showDayId } from '../../src/text/day-id.ts';

/** The runtime's own calendar, used only here, from numbers and in UTC: an independent check. */
const utc = (ms: number): string => new Date(ms).toISOString().slice(0, 10);
const anyDay = fc
  .integer({ min: Date.UTC(1900, 0, 1) / 864e5, max: Date.UTC(2199, 11, 31) / 864e5 })
  .map((number) => utc(number * 864e5));

describe('isDate(text)', () => {
  it.each(['2026-05-03', '2024-02-29', '2000-02-29', '1999-12-31'])('takes %s', (text) => {
    expect(isDate(text)).toBe(true);
  });

  it.each([
    '2026-02-29',
    '1900-02-29',
    '2100-02-29',
    '2026-13-01',
    '2026-00-10',
    '2026-04-31',
    '2026-4-3',
    '26-04-03',
    '2026-05-03T00:00',
    ' 2026-05-03',
    '0026-05-03',
    '2026/05/03',
    '',
  ])('refuses %s', (text) => {
    expect(isDate(text)).toBe(false);
  });

  it('agrees with the calendar of the runtime for every day of 1900 to 2199', () => {
    let ms = Date.UTC(1900, 0, 1);
    let days = 0;
    for (let year = 1900; year <= 2199; year++) {
      for (let month = 1; month <= 12; month++) {
        for (let day = 1; day <= 31; day++) {
          const date = isoDate(year, month, day);
          if (date === null) continue;
          if (date !== utc(ms)) throw new Error(`${date} is not ${utc(ms)}`);
          ms += 864e5;
          days += 1;
        }
      }
    }
    // 300 years of 365 days and 73 leap days (1900 and 2100 are none, 2000 is one).
    expect(days).toBe(300 * 365 + 73);
  });
});

describe('addDays(date, days), daysBetween(from, to), weekday(date)', () => {
  it('steps over months, years and leap days', () => {
    expect(addDays('2026-02-28', 1)).toBe('2026-03-01');
    expect(addDays('2024-02-28', 1)).toBe('2024-02-29');
    expect(addDays('2026-01-01', -1)).toBe('2025-12-31');
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2);
    expect(daysBetween('2026-03-30', '2026-03-28')).toBe(-2);
  });

  it('agrees with the calendar of the runtime', () => {
    fc.assert(
      fc.property(anyDay, anyDay, (a, b) => {
        const between = (Date.parse(`${b}T00:00Z`) - Date.parse(`${a}T00:00Z`)) / 864e5;
        expect(daysBetween(a, b)).toBe(between);
        expect(addDays(a, between)).toBe(b);
        expect(weekday(a)).toBe(
          ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'][
            new Date(`${a}T00:00Z`).getUTCDay()
          ],
        );
      }),
    );
  });

  it('gives faults for dates that are none, part days, and days out of range', () => {
    expect(addDays('2026-02-30', 1)).toMatchObject({ fault: 'not-a-date' });
    expect(addDays('2026-02-01', 0.5)).toMatchObject({ fault: 'not-whole-days' });
    expect(addDays('2026-02-01', 1e9)).toMatchObject({ fault: 'date-out-of-range' });
    expect(daysBetween('2026-02-01', 'soon')).toMatchObject({ fault: 'not-a-date' });
    expect(weekday('')).toMatchObject({ fault: 'not-a-date' });
  });
});

describe('clearDate(date, days)', () => {
  // Common practice, no source: the day of treatment is day 0, the last day has to pass.
  it('is the date + days + 1: 1 June and 10 days give 12 June', () => {
    expect(clearDate('2026-06-01', 10)).toBe('2026-06-12');
    expect(clearDate('2026-06-01', 1)).toBe('2026-06-03');
    expect(clearDate('2024-02-25', 4)).toBe('2024-03-01');
  });

  it('is the date itself for a typed 0', () => {
    expect(clearDate('2026-06-01', 0)).toBe('2026-06-01');
  });

  it.each([-1, 1.5, NaN, Infinity])('is a fault for %d days', (days) => {
    expect(clearDate('2026-06-01', days)).toMatchObject({ fault: 'not-whole-days' });
  });

  it('is a fault for a bad date and for a withdrawal beyond all sense', () => {
    expect(clearDate('01/06/2026', 10)).toMatchObject({ fault: 'not-a-date' });
    expect(clearDate('2026-06-01', 1e6)).toMatchObject({ fault: 'date-out-of-range' });
  });
});

describe('dateReadings(text)', () => {
  const readings = (text: string): string =>
    dateReadings(text)
      .map((reading) => `${reading.order} ${reading.date}`)
      .join(', ');

  it.each([
    ['03/04/2026', 'dmy 2026-04-03, mdy 2026-03-04'],
    ['3.4.26', 'dmy 2026-04-03, mdy 2026-03-04'],
    ['13/04/2026', 'dmy 2026-04-13'],
    ['04/13/2026', 'mdy 2026-04-13'],
    ['03/03/2026', 'any 2026-03-03'],
    ['26-04-03', 'dmy 2003-04-26, ymd 2026-04-03'],
    ['03-04-05', 'dmy 2005-04-03, mdy 2005-03-04, ymd 2003-04-05'],
    ['2026-3-1', 'any 2026-03-01'],
    ['2026/03/01', 'any 2026-03-01'],
    ['20260301', 'any 2026-03-01'],
    ['1 March 2026', 'any 2026-03-01'],
    ['March 1, 2026', 'any 2026-03-01'],
    ['1-Mar-26', 'any 2026-03-01'],
    ['1st Sept 2026', 'any 2026-09-01'],
    ['Sunday 1 March 2026', 'any 2026-03-01'],
    ['15/6/99', 'dmy 1999-06-15'],
    ['31/02/2026', ''],
    ['13/13/2026', ''],
    ['2026-02-30', ''],
    ['45000', ''],
    ['evening', ''],
    ['03/04', ''],
    ['1 Mayhem 2026', ''],
    ['', ''],
  ])('reads %s as: %s', (text, expected) => {
    expect(readings(text)).toBe(expected);
  });

  it('keeps a time of day as written and moves no date to another zone', () => {
    expect(dateReadings('2026-03-01T23:30:00Z')).toEqual([
      { date: '2026-03-01', order: 'any', time: '23:30:00Z' },
    ]);
    expect(dateReadings('03/04/2026 07:15')).toMatchObject([
      { date: '2026-04-03', time: '07:15' },
      { date: '2026-03-04', time: '07:15' },
    ]);
  });

  it('never throws and gives only days of the calendar', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[0-9a-z :./-]{0,16}$/), (text) => {
        expect(dateReadings(text).every(({ date }) => isDate(date))).toBe(true);
      }),
    );
  });
});

describe('readDate(text, order)', () => {
  it('reads a doubtful date in the order chosen, and a clear one in any', () => {
    expect(readDate('03/04/2026', 'dmy')).toMatchObject({ date: '2026-04-03' });
    expect(readDate('03/04/2026', 'mdy')).toMatchObject({ date: '2026-03-04' });
    expect(readDate('2026-03-04', 'mdy')).toMatchObject({ date: '2026-03-04' });
  });

  it('is a fault with a reason for every other text', () => {
    const sentence = (text: string): string => {
      const read = readDate(text, 'mdy');
      return isFault(read) ? read.sentence : read.date;
    };
    expect(sentence('13/04/2026')).toContain('month first');
    expect(sentence('46082')).toContain('spreadsheet');
    expect(sentence('soon')).toContain('like 2026-05-03');
  });
});

describe('dayId(date, label)', () => {
  it('makes one id of the ways in which people write a label', () => {
    expect(dayId('2026-05-03')).toBe('2026-05-03');
    expect(dayId('2026-05-03', ' Evening ')).toBe('2026-05-03-evening');
    expect(dayId('2026-05-03', 'top  field')).toBe('2026-05-03-top-field');
    expect(dayId('2026-05-03', 'Süd')).toBe('2026-05-03-süd');
  });

  it('refuses bad dates and marks that an id cannot hold', () => {
    expect(dayId('2026-05-32')).toMatchObject({ fault: 'not-a-date' });
    expect(dayId('2026-05-03', 'a/b')).toMatchObject({ fault: 'bad-day-label' });
  });

  it('is shown with a space and read in both forms', () => {
    expect(showDayId('2026-05-03-evening')).toBe('2026-05-03 evening');
    expect(showDayId('2026-05-03')).toBe('2026-05-03');
    expect(parseDayId('2026-05-03 Evening')).toEqual({ date: '2026-05-03', label: 'evening' });
    expect(parseDayId('2026-05-03-evening')).toEqual({ date: '2026-05-03', label: 'evening' });
    expect(parseDayId('2026-05-03')).toEqual({ date: '2026-05-03', label: '' });
    expect(parseDayId('2026-05-031')).toMatchObject({ fault: 'not-a-day' });
    expect(parseDayId('3 May')).toMatchObject({ fault: 'not-a-day' });
  });
});
