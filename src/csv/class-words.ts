import type { AnimalClass, Species } from '../../shared/notebook.ts';

/** Words for classes as lists have them, in small letters, one or many. Common practice, no source. */
const classes: Readonly<Record<string, AnimalClass>> = {
  ewe: 'ewe',
  ewes: 'ewe',
  lamb: 'lamb',
  lambs: 'lamb',
  'ewe lamb': 'lamb',
  'ram lamb': 'lamb',
  'wether lamb': 'lamb',
  ram: 'ram',
  rams: 'ram',
  tup: 'ram',
  wether: 'wether',
  wethers: 'wether',
  doe: 'doe',
  does: 'doe',
  nanny: 'doe',
  kid: 'kid',
  kids: 'kid',
  buck: 'buck',
  bucks: 'buck',
  billy: 'buck',
};

const kinds: Readonly<Record<string, Species>> = {
  sheep: 'sheep',
  ovine: 'sheep',
  schaf: 'sheep',
  goat: 'goat',
  goats: 'goat',
  caprine: 'goat',
  ziege: 'goat',
};

/** The class that a word means; `null` for one that is not known. */
export function classOfWord(word: string): AnimalClass | null {
  return wordIn(classes, word);
}

export function speciesOfWord(word: string): Species | null {
  return wordIn(kinds, word);
}

function wordIn<T>(words: Readonly<Record<string, T>>, word: string): T | null {
  const plain = word.trim().toLowerCase();
  return Object.hasOwn(words, plain) ? (words[plain] ?? null) : null;
}
