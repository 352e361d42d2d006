import { say } from './say.ts';

/**
 * Words that a person types and that are stored by an English code, so that formulas and files of every
 * language agree on them. Understood are the English words, and those of the language spoken: how the page
 * shows the code, and a list of other ways to say it, parted by commas.
 */
type Meaning<Code> = readonly [code: Code, english: string, ...spoken: string[]];

/** Lower case and without accents, which a hurried hand leaves out. */
export function plainWord(word: string): string {
  return word.normalize('NFD').replaceAll(/\p{M}/gu, '').trim().toLowerCase();
}

/** Codes by every word for them. Where two languages differ on a word, the English meaning holds: files have it. */
function codesByWord<Code>(meanings: readonly Meaning<Code>[]): ReadonlyMap<string, Code> {
  const pairsOf = (code: Code, list: string): (readonly [string, Code])[] =>
    list.split(',').map((word) => [plainWord(word), code] as const);
  return new Map([
    ...meanings.flatMap(([code, , ...spoken]) => spoken.flatMap((list) => pairsOf(code, list))),
    ...meanings.flatMap(([code, english]) => pairsOf(code, english)),
  ]);
}

/** How a cup's status is shown. */
const statusLabels: Readonly<Record<string, string>> = {
  sampled: say('sampled'),
  'not sampled': say('not sampled'),
  spoiled: say('spoiled'),
  lost: say('lost'),
  pooled: say('pooled'),
  'could not count': say('could not count'),
};

/** A cup's status in the language spoken; a word of a person's own stays as it is. */
export function statusLabel(status: string): string {
  return Object.hasOwn(statusLabels, status) ? (statusLabels[status] ?? status) : status;
}

const statuses = codesByWord<string>([
  ['sampled', 'sampled', statusLabel('sampled'), say('sampled, sample taken')],
  [
    'not sampled',
    'not sampled, no sample, ns',
    statusLabel('not sampled'),
    say('not sampled, no sample, ns'),
  ],
  ['spoiled', 'spoiled, spoilt', statusLabel('spoiled'), say('spoiled, spoilt')],
  ['lost', 'lost, lost it', statusLabel('lost'), say('lost, lost it')],
  ['pooled', 'pooled', statusLabel('pooled'), say('pooled, in a pool')],
  [
    'could not count',
    'could not count, not countable',
    statusLabel('could not count'),
    say('could not count, not countable, cannot be counted'),
  ],
]);

/** The stored status that a word means (`ns`, `Spoilt`, in Spanish `sin muestra`); `null` for anything else. */
export function statusOf(text: string): string | null {
  return statuses.get(plainWord(text)) ?? null;
}

/** English words of which files are full; what was typed by one of these stays as typed. */
const english = {
  tooMany: 'tntc, too many, too many to count, uncountable',
  yes: 'yes, y, x, true, 1, ✓, ✔, seen',
  no: 'no, n, false, 0, not seen',
} as const;

const tooMany = codesByWord([
  ['too many', english.tooMany, say('too many'), say('too many, too many to count, uncountable')],
]);

/** Whether a text says that there were more eggs than could be counted. */
export function saysTooMany(text: string): boolean {
  return tooMany.has(plainWord(text));
}

const ticks = codesByWord<'yes' | 'no'>([
  ['yes', english.yes, say('yes'), say('seen'), say('yes, y, true, seen')],
  ['no', english.no, say('no'), say('not seen'), say('no, n, false, not seen')],
]);

/** Whether a text says yes or no; `null` where it says neither. */
export function yesOrNo(text: string): 'yes' | 'no' | null {
  return ticks.get(plainWord(text)) ?? null;
}

const englishWords: ReadonlySet<string> = new Set(
  Object.values(english).flatMap((list) => list.split(',').map(plainWord)),
);

/**
 * What is kept of a word that was understood: an English one letter by letter as typed, any other as its
 * code, which is read again on a page and in a file of every language.
 */
export function keptWord(text: string, code: string): string {
  return englishWords.has(plainWord(text)) ? text : code;
}
