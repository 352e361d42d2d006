import type { Column } from '../shared/notebook.ts';
import type { Reading } from '../shared/reading.ts';
import type { OutcomeKind } from '../src/notebook/outcome.ts';
import { say } from '../src/text/say.ts';
import { statusLabel } from '../src/text/typed-words.ts';

/** Words of a tick, as they are stored and as they are shown. */
export const tickWords = { yes: say('yes'), no: say('no') } as const;

/** Stored for more eggs than could be counted, whatever word it was typed by. */
export const tooMany = 'too many';
const tooManyShown = say('too many');

/** What the criteria say, in words of their own. */
export const outcomeWords: Readonly<Record<OutcomeKind, string>> = {
  over: say('over'),
  'not enough known': say('not enough known'),
  below: say('below'),
};

/** A word to choose from, as it is shown: the stored word of a status has one in every language. */
export function wordShown(column: Pick<Column, 'key'>, word: string): string {
  return column.key === 'status' ? statusLabel(word) : word;
}

/** What was typed, as it is shown: stored words in the language spoken, all else letter by letter. */
export function typedShown(column: Pick<Column, 'key'>, reading: Reading): string {
  const { kind, text } = reading;
  if (kind === 'text') return wordShown(column, text);
  if (kind === 'too-many') return text === tooMany ? tooManyShown : text;
  return kind === 'tick' && (text === 'yes' || text === 'no') ? tickWords[text] : text;
}
