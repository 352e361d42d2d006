import { fault, isFault, type Fault } from '../../shared/value.ts';
import { checkEggs, checkFactor } from './input-check.ts';
import { say } from '../text/say.ts';

/** One factor for all animals, or one per animal (`null` where it is not known). Unit: epg per egg seen. */
export type Factors = number | readonly (number | null)[];

/** The animals that have both a count and a factor; the three lists run side by side. */
export interface CountedAnimals {
  /** Raw eggs seen, whole numbers. */
  readonly eggs: readonly number[];
  /** Multiplication factor of each, epg per egg. */
  readonly factors: readonly number[];
  /** Place of each in the lists that were handed in, from 0. */
  readonly rows: readonly number[];
}

/** The factor of row `i`, `null` where that animal has none. */
export function factorAt(factors: Factors, i: number): number | null {
  return typeof factors === 'number' ? factors : (factors[i] ?? null);
}

/** A fault where a list of factors has another length than the list of counts, else `null`. */
export function checkLengths(count: number, factors: Factors): Fault | null {
  if (typeof factors === 'number' || factors.length === count) return null;
  return fault(
    'unequal-lists',
    say(
      'There are {counts} counts but {factors} factors: give one factor, or one for each animal.',
      {
        counts: count,
        factors: factors.length,
      },
    ),
  );
}

/**
 * Puts counts and factors side by side. Missing: an animal without a count, or without a factor, is left
 * out, so adding an uncounted animal changes no figure. Faults: unequal lists, a count that is not a
 * whole number of eggs, a factor that is not positive, nobody counted.
 */
export function countedAnimals(
  eggs: readonly (number | null)[],
  factors: Factors,
): CountedAnimals | Fault {
  const unequal = checkLengths(eggs.length, factors);
  if (unequal) return unequal;
  const counted: { eggs: number[]; factors: number[]; rows: number[] } = {
    eggs: [],
    factors: [],
    rows: [],
  };
  for (const [row, seen] of eggs.entries()) {
    const factor = factorAt(factors, row);
    if (seen === null || factor === null) continue;
    const wrong = checkEggs(seen) ?? checkFactor(factor);
    if (isFault(wrong)) return wrong;
    counted.eggs.push(seen);
    counted.factors.push(factor);
    counted.rows.push(row);
  }
  return counted.eggs.length === 0 ? fault('no-counts', say('No counts yet.')) : counted;
}
