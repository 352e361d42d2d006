import type { SamplingDay } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { dateWords } from './date-words.ts';

/**
 * A sampling day as people say it: `14 June`, `14 June evening`; with its year unless that is
 * `knownYear`. Made from the text of the date, so it is the same in every time zone.
 */
export function dayWords(
  day: Pick<SamplingDay, 'date' | 'label'>,
  form: 'short' | 'long' = 'long',
  knownYear?: string,
): string {
  const isKnown = day.date.slice(0, 4) === knownYear;
  const words = dateWords(day.date, isKnown ? `${form} without year` : form);
  return day.label ? `${words} ${day.label}` : words;
}

/** The same from a day's id alone, where the notebook has no such day yet: `3 May 2026 evening`. */
export function dayIdWords(id: DayId): string {
  return dayWords({ date: id.slice(0, 10), label: id.slice(11).replace(/-/g, ' ') });
}
