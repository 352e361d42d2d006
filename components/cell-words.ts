import type { Column } from '../shared/notebook.ts';
import type { Reading } from '../shared/reading.ts';
import type { OutcomeKind } from '../src/notebook/outcome.ts';
import { say } from '../src/text/say.ts';

/** Words of a tick, as they are stored and as they are shown. */
export const tickWords = { yes: say('yes'), no: say('no') } as const;

/** Stored for more eggs than could be counted, whatever word it was typed by. */
export const tooMany = 'too many';

/** A cup's status is stored by these words in every language, so that formulas and files agree on them. */
const statuses: Readonly<Record<string, string>> = {
  sampled: say('sampled'),
  'not sampled': say('not sampled'),
  spoiled: say('spoiled'),
  lost: say('lost'),
  pooled: say('pooled'),
  'could not count': say('could not count'),
};

/** What the criteria say, in words of their own. */
export const outcomeWords: Readonly<Record<OutcomeKind, string>> = {
  over: say('over'),
  'not enough known': say('not enough known'),
  below: say('below'),
};

/** A cup's status in the language spoken; a word of the person's own stays as it is. */
export function statusShown(status: string): string {
  return Object.hasOwn(statuses, status) ? (statuses[status] ?? status) : status;
}

/** A word to choose from, as it is shown: the stored word of a status has one in every language. */
export function wordShown(column: Pick<Column, 'key'>, word: string): string {
  return column.key === 'status' ? statusShown(word) : word;
}

const tooManyShown = say('too many');

/** What was typed, as it is shown: stored words in the language spoken, all else letter by letter. */
export function typedShown(column: Pick<Column, 'key'>, reading: Reading): string {
  const { kind, text } = reading;
  if (kind === 'text') return wordShown(column, text);
  if (kind === 'too-many') return text === tooMany ? tooManyShown : text;
  return kind === 'tick' && (text === 'yes' || text === 'no') ? tickWords[text] : text;
}

/** Lower case and without accents, which a hurried hand leaves out. */
function plain(word: string): string {
  return word.normalize('NFD').replaceAll(/\p{M}/gu, '').trim().toLowerCase();
}

/** Stored words by those of the language; where the two are one word there is nothing to look up. */
function storedBy(pairs: readonly (readonly [shown: string, english: string, stored: string])[]) {
  return new Map(
    pairs.flatMap(([shown, english, stored]) =>
      shown === english ? [] : [[plain(shown), stored] as const],
    ),
  );
}

const storedStatus = storedBy(Object.entries(statuses).map(([code, shown]) => [shown, code, code]));
const storedTick = storedBy([
  [tickWords.yes, 'yes', 'yes'],
  [tickWords.no, 'no', 'no'],
  [say('seen'), 'seen', 'yes'],
  [say('not seen'), 'not seen', 'no'],
]);
const storedInCount = new Map([...storedStatus, ...storedBy([[tooManyShown, tooMany, tooMany]])]);

/**
 * The stored word for one typed in the language spoken (`sin muestra` is `not sampled`); anything else
 * stays as it was typed.
 */
export function storedWord(column: Pick<Column, 'key' | 'kind'>, typed: string): string {
  const words =
    column.kind === 'count'
      ? storedInCount
      : column.kind === 'tick'
        ? storedTick
        : column.kind === 'choice' && column.key === 'status'
          ? storedStatus
          : null;
  return words === null || words.size === 0 ? typed : (words.get(plain(typed)) ?? typed);
}
