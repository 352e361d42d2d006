import type { Change } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { newest } from './cell.ts';
import type { Merged } from './merge.ts';
import { animalsOf, byText, columnOf, daysOf } from './read.ts';

/** What a merge would bring into a notebook, counted for a person to look at before it is done. */
export interface Brings {
  /** Readings that are new here, or of which the other copy has a later one. */
  readonly readings: number;
  /** Those of them that are counts. */
  readonly counts: number;
  /** Ids of days and animals that this copy does not have. */
  readonly days: readonly string[];
  readonly animals: readonly string[];
  readonly treatments: number;
  /** Changes of everything else: settings, columns, notes, the order of rows. */
  readonly other: number;
}

/** `mine` as it is before the merge. */
export function bringsOf(mine: Notebook, merged: Merged): Brings {
  const before = new Set(animalsOf(mine).map(({ id }) => id));
  const daysBefore = new Set(daysOf(mine).map(({ id }) => id));
  const animals = animalsOf(merged.notebook)
    .map(({ id }) => id)
    .filter((id) => !before.has(id));
  const days = daysOf(merged.notebook)
    .map(({ id }) => id)
    .filter((id) => !daysBefore.has(id))
    .sort(byText);
  const fresh = new Set([...animals, ...days]);
  const readings = merged.changes.filter(bringsReading);
  const treatments = new Set<string>();
  let other = 0;
  for (const { path } of merged.changes) {
    const [table, id] = path;
    if (table === 'treatments') treatments.add(id);
    else if (table !== 'readings' && !fresh.has(id)) other += 1;
  }
  return {
    readings: readings.length,
    counts: readings.filter(
      ({ path }) => path[0] === 'readings' && columnOf(merged.notebook, path[3])?.kind === 'count',
    ).length,
    days,
    animals,
    treatments: treatments.size,
    other,
  };
}

/** A cell that was emptied, as by moving it to the animal it belongs to, brings nothing. */
function bringsReading({ path, from, to }: Change): boolean {
  if (path[0] !== 'readings') return false;
  return newest(to) !== undefined || (newest(from) !== undefined && to !== undefined);
}
