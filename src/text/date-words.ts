import { isDate } from './date.ts';
import { spokenLocale } from './say.ts';

const forms = new Map<string, Intl.DateTimeFormat>();
/** Days already written out: the same few are asked for with every cell that is looked at. */
const written = new Map<string, string>();
const mostWritten = 500;

/** How much of a date is written: `14 June 2026`, `14 Jun 2026`, without the year, or with the weekday. */
export type DateForm = 'long' | 'short' | 'long without year' | 'short without year' | 'weekday';

function formatFor(form: DateForm): Intl.DateTimeFormat {
  const locale = spokenLocale();
  const key = `${locale} ${form}`;
  let format = forms.get(key);
  if (!format) {
    const isWeekday = form === 'weekday';
    format = new Intl.DateTimeFormat(locale, {
      day: 'numeric',
      month: form.startsWith('short') ? 'short' : 'long',
      ...(form.endsWith('without year') ? {} : { year: 'numeric' }),
      ...(isWeekday ? { weekday: 'long' } : {}),
      timeZone: 'UTC',
    });
    forms.set(key, format);
  }
  return format;
}

/**
 * A date as it is written where the person lives: `2026-06-14` becomes `14 June 2026`, `June 14, 2026` or
 * `14 de junio de 2026`. Inside and in files it stays as it is. A text that is no date is given back as it
 * came.
 */
export function dateWords(date: string, form: DateForm = 'long'): string {
  const key = `${spokenLocale()} ${form} ${date}`;
  const known = written.get(key);
  if (known !== undefined) return known;
  if (!isDate(date)) return date;
  // The moment is made in UTC and written in UTC, so the time zone of the machine has no say.
  const words = formatFor(form).format(Date.parse(`${date}T00:00:00Z`));
  if (written.size >= mostWritten) written.clear();
  written.set(key, words);
  return words;
}
