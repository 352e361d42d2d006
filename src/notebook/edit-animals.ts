import type { Edit, SetTo } from '../../shared/edit.ts';
import type { Animal, AnimalFacts, Notebook } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { canonicalTag } from '../text/tag.ts';
import { animalOf, animalsOf } from './read.ts';
import { orderBefore, ordersAtEnd, setsOf } from './record-sets.ts';
import { say } from '../text/say.ts';

/** What may be said of a new animal; only the tag is needed. */
export type NewAnimal = Partial<Omit<AnimalFacts, 'order' | 'removed'>> & {
  readonly tag: string;
  /** Its group from its arrival on (from `since` where no arrival is given). */
  readonly group?: string;
};

/**
 * Adds animals in one step. Tags are kept as typed; a tag already in the notebook, or twice among the
 * new ones, is a fault that names it, and nothing is added.
 */
export function addAnimals(
  notebook: Notebook,
  added: readonly NewAnimal[],
  newId: () => string,
  since: string,
): Edit | Fault {
  if (added.length === 0)
    return fault('no-animals', say('There is no tag to add. Type or paste at least one.'));
  const known = tagsByKey(animalsOf(notebook));
  const orders = ordersAtEnd(animalsOf(notebook), added.length);
  const sets: SetTo[] = [];
  for (const [i, { group, ...facts }] of added.entries()) {
    const key = freeKey(known, facts.tag);
    if (isFault(key)) return key;
    known.set(key, facts.tag);
    const id = newId();
    sets.push(...setsOf('animals', id, { ...facts, order: orders[i] }));
    if (group) sets.push({ path: ['groups', id, facts.arrived ?? since], value: group });
  }
  const label = say('{n, plural, =1 {adding {tag}} other {adding # animals}}', {
    n: added.length,
    tag: added[0]?.tag,
  });
  return { label, source: 'typed', sets };
}

/** Tags by their canonical keys. A tag that has no key (a damaged one) stands by itself. */
function tagsByKey(animals: readonly Animal[]): Map<string, string> {
  const keyOf = (tag: string): string => {
    const read = canonicalTag(tag);
    return isFault(read) ? tag : read.key;
  };
  return new Map(animals.map(({ tag }) => [keyOf(tag), tag]));
}

/** The canonical key of a tag that no animal bears yet, or why it cannot be one. */
function freeKey(known: ReadonlyMap<string, string>, tag: string): string | Fault {
  const read = canonicalTag(tag);
  if (isFault(read)) return read;
  const taken = known.get(read.key);
  if (taken === undefined) return read.key;
  return fault(
    'tag-taken',
    taken === tag
      ? say('{tag} is already in the notebook.', { tag })
      : say('{tag} is already in the notebook as {taken}.', { tag, taken }),
  );
}

/** Changes facts of one animal; a tag that another animal bears is refused. */
export function changeAnimal(
  notebook: Notebook,
  id: string,
  facts: Partial<AnimalFacts>,
): Edit | Fault {
  const animal = animalOf(notebook, id);
  if (!animal) return fault('no-animal', say('That animal is not in this notebook.'));
  if (facts.tag !== undefined && facts.tag !== animal.tag) {
    const others = animalsOf(notebook).filter((other) => other.id !== id);
    const key = freeKey(tagsByKey(others), facts.tag);
    if (isFault(key)) return key;
  }
  return {
    label: say('a change to {tag}', { tag: animal.tag }),
    source: 'typed',
    sets: setsOf('animals', id, facts),
  };
}

/** The animals of a change in its name: one by its tag, more by their number. */
function whoOf(notebook: Notebook, ids: readonly string[]): { n: number; tag: string } {
  return { n: ids.length, tag: animalOf(notebook, ids[0] ?? '')?.tag ?? '' };
}

/** Moves animals to a group from a date on; an empty group takes them out of any. */
export function moveToGroup(
  notebook: Notebook,
  ids: readonly string[],
  group: string,
  date: string,
): Edit {
  const who = whoOf(notebook, ids);
  return {
    label:
      group === ''
        ? say(
            '{n, plural, =1 {moving {tag} out of any group} other {moving # animals out of any group}}',
            who,
          )
        : say('{n, plural, =1 {moving {tag} to {group}} other {moving # animals to {group}}}', {
            ...who,
            group,
          }),
    source: 'typed',
    sets: ids.map((id) => ({ path: ['groups', id, date] as const, value: group })),
  };
}

/** From this date on the animals are no longer here; `null` brings them back. */
export function leaveFarm(
  notebook: Notebook,
  ids: readonly string[],
  date: string | null,
  why: string,
): Edit {
  const who = whoOf(notebook, ids);
  return {
    label:
      date === null
        ? say('{n, plural, =1 {bringing back {tag}} other {bringing back # animals}}', who)
        : say('{n, plural, =1 {{tag} leaving} other {# animals leaving}}', who),
    source: 'typed',
    sets: ids.flatMap((id) => [
      { path: ['animals', id, 'left'] as const, value: date },
      { path: ['animals', id, 'leftWhy'] as const, value: date === null ? null : why },
    ]),
  };
}

/** Takes animals off the list; their readings stay and undo brings them back. */
export function removeAnimals(notebook: Notebook, ids: readonly string[]): Edit {
  const who = whoOf(notebook, ids);
  return {
    label: say('{n, plural, =1 {removing {tag}} other {removing # animals}}', who),
    source: 'typed',
    sets: ids.map((id) => ({ path: ['animals', id, 'removed'] as const, value: true })),
  };
}

/** Puts an animal before another one (`null`: last) in the notebook's own order. */
export function reorderAnimal(notebook: Notebook, id: string, beforeId: string | null): Edit {
  const order = orderBefore(animalsOf(notebook), id, beforeId);
  const tag = animalOf(notebook, id)?.tag ?? '';
  return {
    label: say('the place of {tag}', { tag }),
    source: 'typed',
    sets: setsOf('animals', id, { order }),
  };
}
