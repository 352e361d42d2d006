import { fault, isFault, type Fault } from '../../shared/value.ts';
import { say } from '../text/say.ts';

/**
 * The figures of a list that are there: `null` (not counted, not known) is skipped, 0 is kept. The order
 * of the rest stays. A fault where a figure is negative or not a number, and where none is left, so
 * that no mean, share or percentage is ever taken of nothing.
 */
export function knownValues(values: readonly (number | null)[]): number[] | Fault {
  const known: number[] = [];
  for (const value of values) {
    if (value === null) continue;
    if (!Number.isFinite(value) || value < 0) {
      return fault(
        'bad-number',
        say('One of the figures is negative or no number: correct that row first.'),
      );
    }
    known.push(value);
  }
  return known.length === 0 ? fault('no-counts', say('No counts yet.')) : known;
}

/** The known values, highest first, with their total; a fault where the total is 0 (no eggs to share out). */
export function rankedValues(
  values: readonly (number | null)[],
): { readonly ranked: readonly number[]; readonly total: number } | Fault {
  const known = knownValues(values);
  if (isFault(known)) return known;
  const ranked = known.sort((a, b) => b - a);
  const total = ranked.reduce((sum, value) => sum + value, 0);
  if (total > 0) return { ranked, total };
  return fault(
    'no-eggs',
    say('No eggs were found in any animal, so there are no eggs to share out.'),
  );
}
