import type { Animal, Species } from '../../shared/notebook.ts';
import { daysBetween } from '../text/date.ts';

/**
 * The species as typed, else as the class says it (an ewe is a sheep, a doe a goat); `undefined` for a
 * wether or an animal of which neither is known.
 */
export function speciesOf(animal: Animal): Species | undefined {
  if (animal.species) return animal.species;
  switch (animal.class) {
    case 'ewe':
    case 'lamb':
    case 'ram':
      return 'sheep';
    case 'doe':
    case 'kid':
    case 'buck':
      return 'goat';
    default:
      return undefined;
  }
}

/** Days up to which an animal without a young class still counts as young stock. */
export const YOUNG_DAYS = 365;

/** Young stock grows from week to week: lambs and kids by class, else anything born within a year. */
export function isYoung(animal: Animal, date: string): boolean {
  if (animal.class === 'lamb' || animal.class === 'kid') return true;
  if (animal.born === undefined) return false;
  const age = daysBetween(animal.born, date);
  return typeof age === 'number' && age >= 0 && age < YOUNG_DAYS;
}
