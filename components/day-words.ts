import type { SamplingDay } from '../shared/notebook.ts';
import { dateWords } from '../src/text/date-words.ts';

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
