import type { SamplingDay } from '../shared/notebook.ts';

const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/**
 * A sampling day as people say it: `14 June`, `14 June evening`; with its year unless that is
 * `knownYear`. Made from the text of the date, so it is the same in every time zone.
 */
export function dayWords(
  day: Pick<SamplingDay, 'date' | 'label'>,
  form: 'short' | 'long' = 'long',
  knownYear?: string,
): string {
  const [year = '', month = '', date = ''] = day.date.split('-');
  const name = months[Number(month) - 1] ?? month;
  const parts = [String(Number(date)), form === 'short' ? name.slice(0, 3) : name];
  if (year !== knownYear) parts.push(year);
  if (day.label) parts.push(day.label);
  return parts.join(' ');
}
