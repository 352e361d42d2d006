import type { AnimalClass, Species } from '../../shared/notebook.ts';
import { say } from '../text/say.ts';
import { plainWord } from '../text/typed-words.ts';

/**
 * Words for classes as lists have them, in small letters without accents, one or many, in English and
 * Spanish. Common practice, no source. A word that means a ram to one and a buck or a kid to another
 * (`semental`, `chivo`) is left out.
 */
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
  oveja: 'ewe',
  ovejas: 'ewe',
  cordero: 'lamb',
  corderos: 'lamb',
  cordera: 'lamb',
  corderas: 'lamb',
  carnero: 'ram',
  carneros: 'ram',
  morueco: 'ram',
  moruecos: 'ram',
  capon: 'wether',
  capones: 'wether',
  cabra: 'doe',
  cabras: 'doe',
  cabrito: 'kid',
  cabritos: 'kid',
  cabrita: 'kid',
  cabritas: 'kid',
  'macho cabrio': 'buck',
  'machos cabrios': 'buck',
};

const kinds: Readonly<Record<string, Species>> = {
  sheep: 'sheep',
  ovine: 'sheep',
  schaf: 'sheep',
  goat: 'goat',
  goats: 'goat',
  caprine: 'goat',
  ziege: 'goat',
  ovino: 'sheep',
  ovinos: 'sheep',
  ovina: 'sheep',
  oveja: 'sheep',
  ovejas: 'sheep',
  caprino: 'goat',
  caprinos: 'goat',
  caprina: 'goat',
  cabra: 'goat',
  cabras: 'goat',
};

/** The class that a word means; `null` for one that is not known. */
export function classOfWord(word: string): AnimalClass | null {
  return wordIn(classes, word);
}

export function speciesOfWord(word: string): Species | null {
  return wordIn(kinds, word);
}

function wordIn<T>(words: Readonly<Record<string, T>>, word: string): T | null {
  const plain = plainWord(word);
  return Object.hasOwn(words, plain) ? (words[plain] ?? null) : null;
}

/** Classes and species are kept in English; a sentence has them in the language spoken. */
const shown: Readonly<Record<AnimalClass | Species, string>> = {
  ewe: say('ewe'),
  lamb: say('lamb'),
  ram: say('ram'),
  wether: say('wether'),
  doe: say('doe'),
  kid: say('kid'),
  buck: say('buck'),
  sheep: say('sheep'),
  goat: say('goat'),
};

export function classOrSpeciesShown(kept: string): string {
  return Object.hasOwn(shown, kept) ? shown[kept as AnimalClass | Species] : kept;
}
