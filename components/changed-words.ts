import { dayWords } from '../src/text/day-words.ts';
import { say } from '../src/text/say.ts';

/** When a notebook was last written, in words by the calendar of this place; '' where not known. */
export function changedWords(changedAt: number | null, today: string): string {
  if (changedAt === null) return '';
  const date = localDate(new Date(changedAt));
  return date === today
    ? say('changed today')
    : say('changed {day}', { day: dayWords({ date }, 'long', today.slice(0, 4)) });
}

/** The date of a moment where the person is, `2026-05-03`. */
export function localDate(moment: Date): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}

/** The time of a moment where the person is, `06:42`. */
export function localTime(moment: Date): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${two(moment.getHours())}:${two(moment.getMinutes())}`;
}
