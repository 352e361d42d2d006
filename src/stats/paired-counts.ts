import { fault, isFault, type Fault } from '../../shared/value.ts';
import { checkLengths, factorAt, type Factors } from './counted-animals.ts';
import { checkEggs, checkFactor } from './input-check.ts';
import { say } from '../text/say.ts';

/** One animal counted on both days: raw eggs and epg per egg, before and after. */
export interface Pair {
  readonly before: number;
  readonly after: number;
  readonly factorBefore: number;
  readonly factorAfter: number;
}

/** Counts of both days; lists run over the same animals in the same order, `null` where not counted. */
export interface BeforeAndAfter {
  readonly before: readonly (number | null)[];
  readonly after: readonly (number | null)[];
  readonly factorBefore?: Factors;
  readonly factorAfter?: Factors;
}

/**
 * The animals complete on both days. Missing: an animal without a count, or without its factor, on one of the days
 * is left out ("2 of 4 pairs"); a count of 0 is a count. Faults: unequal lists, eggs not whole, factor
 * not above 0, no complete pair.
 */
export function pairedCounts(counts: BeforeAndAfter): Pair[] | Fault {
  const { before, after, factorBefore = 1, factorAfter = 1 } = counts;
  const unequal =
    checkSameAnimals(before.length, after.length) ??
    checkLengths(before.length, factorBefore) ??
    checkLengths(after.length, factorAfter);
  if (unequal) return unequal;
  const pairs: Pair[] = [];
  for (const [i, x] of before.entries()) {
    const y = after[i] ?? null;
    const first = factorAt(factorBefore, i);
    const second = factorAt(factorAfter, i);
    if (x === null || y === null || first === null || second === null) continue;
    const wrong = checkEggs(x) ?? checkEggs(y) ?? checkFactor(first) ?? checkFactor(second);
    if (isFault(wrong)) return wrong;
    pairs.push({ before: x, after: y, factorBefore: first, factorAfter: second });
  }
  return pairs.length === 0 ? noPairs() : pairs;
}

/** A fault where the two days list different numbers of animals. */
export function checkSameAnimals(before: number, after: number): Fault | null {
  if (before === after) return null;
  return fault(
    'unequal-lists',
    say(
      'There are {before} animals before and {after} after: both lists must hold the same animals.',
      { before, after },
    ),
  );
}

export function noPairs(): Fault {
  return fault('no-pairs', say('No animal has a count both before and after the treatment.'));
}

export function noEggsBefore(): Fault {
  return fault(
    'no-eggs-before',
    say('Before-treatment counts are all zero, so there is no reduction to work out.'),
  );
}
