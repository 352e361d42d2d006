import { dateWords } from '../src/text/date-words.ts';
import type { Clear } from '../src/treating/clear-date.ts';
import { say } from '../src/text/say.ts';

/** Since when meat or milk of one treatment is clear, or why there is no date, in the language spoken. */
export function clearWords(clear: Clear): string {
  if (clear.kind === 'date') return say('clear {date}', { date: dateWords(clear.date) });
  return clear.kind === 'ask' ? say('no clear date, ask your vet') : say('not permitted');
}
