import type { Animal, Notebook } from '../../shared/notebook.ts';
import { animalsOf, byText, dayOf } from './read.ts';
import { newest } from './cell.ts';

/**
 * Whether an animal counts among those present on a day: it had arrived and not left (the leaving
 * date is its first day away), or something was typed for it that day, which outranks the dates.
 */
export function isPresent(notebook: Notebook, dayId: string, animal: Animal): boolean {
  const date = dayOf(notebook, dayId)?.date ?? dayId.slice(0, 10);
  const here =
    (animal.arrived === undefined || animal.arrived <= date) &&
    (animal.left === undefined || date < animal.left);
  return here || hasReadings(notebook, dayId, animal.id);
}

function hasReadings(notebook: Notebook, dayId: string, rowId: string): boolean {
  const row = notebook.readings[dayId]?.[rowId];
  return row !== undefined && Object.values(row).some((cell) => newest(cell) !== undefined);
}

/** The animals present on a day, in row order: the N of that day. */
export function presentAnimals(notebook: Notebook, dayId: string): readonly Animal[] {
  return animalsOf(notebook).filter((animal) => isPresent(notebook, dayId, animal));
}

/** The group an animal is in on a date: its latest move up to then; `undefined` when never grouped. */
export function groupOn(notebook: Notebook, animalId: string, date: string): string | undefined {
  const moves = notebook.groups[animalId];
  if (!moves) return undefined;
  let latest: string | undefined;
  let group: string | undefined;
  for (const [from, cell] of Object.entries(moves)) {
    const to = newest(cell);
    if (to === undefined || from > date || (latest !== undefined && from < latest)) continue;
    latest = from;
    group = to;
  }
  return group === '' ? undefined : group;
}

/** The groups that animals present on a day are in, in plain order; ungrouped animals have none. */
export function groupsOn(notebook: Notebook, dayId: string): readonly string[] {
  const date = dayOf(notebook, dayId)?.date ?? dayId.slice(0, 10);
  const names = new Set<string>();
  for (const animal of presentAnimals(notebook, dayId)) {
    const group = groupOn(notebook, animal.id, date);
    if (group !== undefined) names.add(group);
  }
  return [...names].sort(byText);
}
