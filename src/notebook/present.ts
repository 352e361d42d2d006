import type { Animal, Notebook } from '../../shared/notebook.ts';
import { animalsOf, byText, dayOf } from './read.ts';
import { newest } from './cell.ts';

/**
 * Whether an animal counts among those present on a day: it had arrived and not left (the leaving
 * date is its first day away), or something was typed for it that day, which outranks the dates.
 */
export function isPresent(notebook: Notebook, dayId: string, animal: Animal): boolean {
  return isHere(animal, dateOf(notebook, dayId)) || hasReadings(notebook, dayId, animal.id);
}

/** By its dates alone. */
function isHere({ arrived, left }: Animal, date: string): boolean {
  return (arrived === undefined || arrived <= date) && (left === undefined || date < left);
}

function dateOf(notebook: Notebook, dayId: string): string {
  return dayOf(notebook, dayId)?.date ?? dayId.slice(0, 10);
}

function hasReadings(notebook: Notebook, dayId: string, rowId: string): boolean {
  const row = notebook.readings[dayId]?.[rowId];
  return row !== undefined && Object.values(row).some((cell) => newest(cell) !== undefined);
}

interface Present {
  readonly day: object | undefined;
  /** In row order; who is not here by the dates is present if something was typed. */
  readonly byDates: readonly { readonly animal: Animal; readonly isHere: boolean }[];
  readonly doubtful: readonly Animal[];
  typed: readonly Animal[];
  animals: readonly Animal[];
}

const presentKept = new WeakMap<object, Map<string, Present>>();

/**
 * The animals present on a day, in row order: the N of that day. The same animals give the same array, so that
 * views can compare by identity; readings are looked at only for animals outside their dates.
 */
export function presentAnimals(notebook: Notebook, dayId: string): readonly Animal[] {
  const day = notebook.days[dayId];
  let days = presentKept.get(notebook.animals);
  if (!days) presentKept.set(notebook.animals, (days = new Map<string, Present>()));
  let kept = days.get(dayId);
  if (!kept || kept.day !== day) days.set(dayId, (kept = presentByDates(notebook, dayId, day)));
  const typed = kept.doubtful.filter(({ id }) => hasReadings(notebook, dayId, id));
  if (typed.length !== kept.typed.length || typed.some((one, i) => one !== kept.typed[i])) {
    const back = new Set(typed);
    kept.typed = typed;
    kept.animals = kept.byDates.flatMap(({ animal, isHere }) =>
      isHere || back.has(animal) ? [animal] : [],
    );
  }
  return kept.animals;
}

function presentByDates(notebook: Notebook, dayId: string, day: object | undefined): Present {
  const date = dateOf(notebook, dayId);
  const byDates = animalsOf(notebook).map((animal) => ({ animal, isHere: isHere(animal, date) }));
  return {
    day,
    byDates,
    doubtful: byDates.flatMap(({ animal, isHere }) => (isHere ? [] : [animal])),
    typed: [],
    animals: byDates.flatMap(({ animal, isHere }) => (isHere ? [animal] : [])),
  };
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

const groupsKept = new WeakMap<
  object,
  { readonly from: object; readonly names: readonly string[] }
>();

/** The groups that animals present on a day are in, in plain order; ungrouped animals have none. */
export function groupsOn(notebook: Notebook, dayId: string): readonly string[] {
  const present = presentAnimals(notebook, dayId);
  const kept = groupsKept.get(present);
  if (kept?.from === notebook.groups) return kept.names;
  const date = dateOf(notebook, dayId);
  const found = new Set<string>();
  for (const animal of present) {
    const group = groupOn(notebook, animal.id, date);
    if (group !== undefined) found.add(group);
  }
  const names = [...found].sort(byText);
  groupsKept.set(present, { from: notebook.groups, names });
  return names;
}
