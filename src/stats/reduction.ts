import { isFault, type Fault } from '../../shared/value.ts';
import { knownValues } from './known-values.ts';
import { checkSameAnimals, noEggsBefore, noPairs } from './paired-counts.ts';

/**
 * Reduction of the egg count in %, paired: 100·(1 − mean after / mean before), arithmetic means of the
 * animals counted on both days.
 *
 * Units: epg (raw eggs give the same where the factors of both days are equal). Missing: an animal
 * without a count on one of the days is left out with its other count; a pair 0 and 0 counts. Negative when
 * counts went up; never clipped. Faults: unequal lists, no complete pair, no eggs before, negative figures.
 *
 * Source: the paired form 1 − T2/T1, McKenna 2006, NZ Vet J 54:202–203 (abstract read); the same animals before and
 * after are recommended by Kaplan et al. 2023, Vet Parasitol 318:109936 (abstract read).
 */
export function reduction(
  before: readonly (number | null)[],
  after: readonly (number | null)[],
): number | Fault {
  const unequal = checkSameAnimals(before.length, after.length);
  if (unequal) return unequal;
  const complete = before.map((x, i) => x !== null && (after[i] ?? null) !== null);
  if (!complete.includes(true)) return noPairs();
  const first = knownValues(before.filter((_, i) => complete[i]));
  if (isFault(first)) return first;
  const second = knownValues(after.filter((_, i) => complete[i]));
  if (isFault(second)) return second;
  const total = first.reduce((sum, value) => sum + value, 0);
  if (total === 0) return noEggsBefore();
  return 100 * (1 - second.reduce((sum, value) => sum + value, 0) / total);
}
