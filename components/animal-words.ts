import type { AnimalClass, Species, Stage } from '../shared/notebook.ts';

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
export const speciesWords: readonly Species[] = ['sheep', 'goat'];
export const stages: readonly Stage[] = [
  'dry',
  'pregnant',
  'late pregnant',
  'newly in milk',
  'in milk',
];
