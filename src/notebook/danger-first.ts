import type { Outcome } from './outcome.ts';

/** What an animal is ranked by. */
export interface Ranked {
  readonly outcome: Pick<Outcome, 'danger'>;
  /** Eggs per gram; null where there is no figure. */
  readonly epg: number | null;
}

/**
 * Danger first: the greatest danger of the reasons that hold, then the most eggs, then the order in
 * which the animals came. An animal without a figure follows those of the same danger that have one.
 */
export function dangerFirst<T extends Ranked>(animals: readonly T[]): readonly T[] {
  return animals
    .map((animal, at) => ({ animal, at }))
    .sort(
      (a, b) =>
        b.animal.outcome.danger - a.animal.outcome.danger ||
        (b.animal.epg ?? -1) - (a.animal.epg ?? -1) ||
        a.at - b.at,
    )
    .map(({ animal }) => animal);
}
