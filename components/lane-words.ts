import { say } from '../src/text/say.ts';

/** A part of a grid in words: `2 of 6 lanes` for `2/6`; nothing typed is the whole grid. */
export function laneWords(part: string): string {
  if (part === '') return say('the whole grid');
  const [counted = '', all = ''] = part.split('/');
  return say('{counted} of {all} lanes', { counted, all });
}
