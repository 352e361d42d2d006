import type { DecimalMark } from '../text/decimal-text.ts';
import { say } from '../text/say.ts';

/** A number for a sentence: at most so many decimals, no zeros that say nothing, never `-0`. */
export function shortNumber(value: number, decimals = 2, mark: DecimalMark = '.'): string {
  const text = String(Number(value.toFixed(decimals)));
  return text === '-0' ? '0' : text.replace('.', mark);
}

/** Whole days in words, from the least to the most: `14 days`, `10 to 14 days`. */
export function daysWords(least: number, most: number): string {
  return least === most
    ? say('{n, plural, one {# day} other {# days}}', { n: most })
    : say('{least} to {most} days', { least, most });
}
