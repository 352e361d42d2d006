import { fault, type Fault } from '../../shared/value.ts';
import { say } from '../text/say.ts';

/** More eggs than this in one cup is a slip of the keys: a full grid holds some thousands. */
export const MOST_EGGS = 1e9;

/** `null` when `level` (0.95 for 95 %) is usable, else a fault. Levels lie between 0 and 1, both excluded. */
export function checkLevel(level: number): Fault | null {
  if (level > 0 && level < 1) return null;
  return fault('bad-level', say('The level must lie between 0 and 1: write 0.95 for 95 %.'));
}

/** `null` when `eggs` is a raw count as seen under the microscope: whole and not negative. */
export function checkEggs(eggs: number): Fault | null {
  if (Number.isInteger(eggs) && eggs >= 0 && eggs <= MOST_EGGS) return null;
  if (Number.isFinite(eggs) && eggs >= 0 && eggs <= MOST_EGGS) {
    return fault(
      'eggs-not-whole',
      say('Eggs are counted one by one: give the whole number of eggs seen.'),
    );
  }
  return fault('bad-eggs', say('The number of eggs must be a whole number, 0 or more.'));
}

/** A factor beyond this is a slip of the keys; its square would leave the range of numbers. */
export const MOST_FACTOR = 1e9;

/** `null` when `factor` (epg per egg seen) is a positive number of a sensible size. */
export function checkFactor(factor: number): Fault | null {
  if (factor > MOST_FACTOR) {
    return fault('bad-factor', say('The multiplication factor is far too large: check it.'));
  }
  if (Number.isFinite(factor) && factor > 0) return null;
  return fault('bad-factor', say('The multiplication factor must be more than 0.'));
}

/** Whether `amount` is a number above 0. */
export function isPositive(amount: number): boolean {
  return Number.isFinite(amount) && amount > 0;
}

/**
 * `null` when `amount` is a positive number, else a fault with the sentence: "The weight in kg must be more
 * than 0." It is asked for only then, since figures of every animal pass here.
 */
export function checkPositive(amount: number, sentence: () => string): Fault | null {
  return isPositive(amount) ? null : fault('bad-amount', sentence());
}

/** `null` when `amount` is 0 or more, else a fault with the sentence, as in `checkPositive`. */
export function checkNotNegative(amount: number, sentence: () => string): Fault | null {
  return Number.isFinite(amount) && amount >= 0 ? null : fault('bad-amount', sentence());
}
