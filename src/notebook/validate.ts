import type { Notebook } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { newest } from './cell.ts';
import { tableNames } from './field-checks.ts';
import { migrate } from './migrate.ts';
import { animalsOf } from './read.ts';
import { soundReadings, soundSeen, soundTable, type Problem } from './sound-parts.ts';
import { tagKey } from './unite.ts';
import { say } from '../text/say.ts';

/** A notebook of what could be read, and what could not, to be kept aside. */
export interface Salvaged {
  readonly notebook: Notebook;
  readonly problems: readonly (Problem & { readonly place: string })[];
}

/**
 * The notebook that this JSON is, of whatever version; or a fault whose sentence names the first
 * place where it is wrong, and how many more there are. Tables and fields this version does not
 * know are kept as they are.
 */
export function validate(json: unknown): Notebook | Fault {
  const read = salvage(json);
  if (isFault(read)) return read;
  const { problems } = read;
  const [first, ...rest] = problems;
  if (!first) return read.notebook;
  const others =
    rest.length === 0
      ? []
      : [
          say('{n, plural, =1 {One more place is wrong.} other {# more places are wrong.}}', {
            n: rest.length,
          }),
        ];
  const isTwice = problems.every(({ kind }) => kind === 'animal-twice');
  return fault(
    isTwice ? 'animal-twice' : 'wrong-notebook',
    [say('{place}: {sentence}', { place: first.place, sentence: first.sentence }), ...others].join(
      ' ',
    ),
  );
}

/**
 * What can be read of a notebook in which something is wrong. Every wrong part is left out and
 * listed; where an animal stands twice both stay, marked as kept apart. A fault only where there is
 * nothing to read: another kind of file, or a newer version.
 */
export function salvage(json: unknown): Salvaged | Fault {
  const present = migrate(json);
  if (isFault(present)) return present;
  const problems: Problem[] = [];
  const report = (found: Problem): void => void problems.push(found);
  const { id } = present;
  if (typeof id !== 'string' || id === '')
    return fault('no-id', say('id: this notebook has no id, so it cannot be told from others.'));
  const tables = tableNames.map((name) => [name, soundTable(name, present[name] ?? {}, report)]);
  const notebook = {
    ...present,
    format: 'sampling-daybook',
    version: 1,
    language: 1,
    id,
    seen: soundSeen(present['seen'] ?? {}, report),
    ...(Object.fromEntries(tables) as object),
    readings: soundReadings(present['readings'] ?? {}, report),
  } as unknown as Notebook;
  const twice = animalsTwice(notebook);
  problems.push(...twice);
  return {
    notebook: twice.reduce((kept, { ids }) => keptApart(kept, ids), notebook),
    problems: problems.map((found) => ({ ...found, place: placeName(notebook, found.path) })),
  };
}

/** A place in a person's words: tags for animals, names for columns, else ids. */
export function placeName(notebook: Notebook, path: readonly string[]): string {
  const [table] = path;
  const named = path.map((step, i) => {
    const animal = newest(own(notebook.animals, step)?.tag);
    const column = newest(own(notebook.columns, step)?.key);
    if (i === 0) return step;
    if (table === 'readings') return i === 2 ? (animal ?? step) : i === 3 ? (column ?? step) : step;
    if (table === 'animals' || table === 'groups') return i === 1 ? (animal ?? step) : step;
    if (table === 'columns') return i === 1 ? (column ?? step) : step;
    const isRow = i === 2 && (table === 'bench' || table === 'yard' || table === 'decisions');
    return isRow ? (animal ?? step) : step;
  });
  return named.join(' › ');
}

function own<T>(table: Readonly<Record<string, T>>, id: string): T | undefined {
  return Object.hasOwn(table, id) ? table[id] : undefined;
}

interface Twice extends Problem {
  readonly ids: readonly [string, string];
}

/** Animals with equal tags that no one said are two. */
function animalsTwice(notebook: Notebook): Twice[] {
  const first = new Map<string, string>();
  const found: Twice[] = [];
  for (const animal of animalsOf(notebook)) {
    const key = tagKey(animal.tag);
    const other = first.get(key);
    first.set(key, other ?? animal.id);
    if (other === undefined) continue;
    const before = animalsOf(notebook).find(({ id }) => id === other);
    if (animal.keptApart === true && before?.keptApart === true) continue;
    found.push({
      kind: 'animal-twice',
      ids: [other, animal.id],
      path: ['animals', animal.id, 'tag'],
      sentence: say(
        '{tag} stands twice in the list of animals ({firstId} as {firstTag}, {secondId} as {tag}). One animal must have one line.',
        { tag: animal.tag, firstId: other, firstTag: before?.tag, secondId: animal.id },
      ),
      raw: animal.tag,
    });
  }
  return found;
}

/** Marks two animals as two, under the stamps of their tags: nobody wrote anything new. */
function keptApart(notebook: Notebook, ids: readonly string[]): Notebook {
  const animals = { ...notebook.animals };
  for (const id of ids) {
    const fields = animals[id];
    const stamp = fields?.tag?.[0]?.[1];
    if (fields && stamp) animals[id] = { ...fields, keptApart: [[true, stamp]] };
  }
  return { ...notebook, animals };
}
