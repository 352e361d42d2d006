import { spokenLanguage } from '../text/say.ts';

const lists = new Map<string, Intl.ListFormat>();

/**
 * `A`, `A and B`, `A, B and C` in the language spoken (`A, B y C`); empty for none. English is written
 * without a comma before "and".
 */
export function wordList(words: readonly string[]): string {
  const language = spokenLanguage() === 'en' ? 'en-GB' : spokenLanguage();
  let list = lists.get(language);
  if (!list) lists.set(language, (list = new Intl.ListFormat(language)));
  return list.format(words);
}
