import type { AnimalClass, Species, Stage } from '../shared/notebook.ts';
import { say } from '../src/text/say.ts';

/** What may be chosen for an animal, in the order in which it is offered. */
export const classes: readonly AnimalClass[] = [
  'ewe',
  'lamb',
  'ram',
  'wether',
  'doe',
  'kid',
  'buck',
];
export const allSpecies: readonly Species[] = ['sheep', 'goat'];
export const stages: readonly Stage[] = [
  'dry',
  'pregnant',
  'late pregnant',
  'newly in milk',
  'in milk',
];
/** What a person may call all their animals together. */
export const herdWords: readonly string[] = ['flock', 'herd', 'mob'];

/** The notebook keeps these words in English; they are shown in the language spoken. */
const shown: ReadonlyMap<string, string> = new Map([
  ['ewe', say('ewe')],
  ['lamb', say('lamb')],
  ['ram', say('ram')],
  ['wether', say('wether')],
  ['doe', say('doe')],
  ['kid', say('kid')],
  ['buck', say('buck')],
  ['sheep', say('sheep')],
  ['goat', say('goat')],
  ['dry', say('dry')],
  ['pregnant', say('pregnant')],
  ['late pregnant', say('late pregnant')],
  ['newly in milk', say('newly in milk')],
  ['in milk', say('in milk')],
  ['flock', say('flock')],
  ['herd', say('herd')],
  ['mob', say('mob')],
]);

/** A class, species or stage, or a word for the herd, as it is shown; a word not known stays as it is kept. */
export function animalWord(kept: string): string {
  return shown.get(kept) ?? kept;
}
