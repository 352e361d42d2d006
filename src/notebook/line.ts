import type { Edit } from '../../shared/edit.ts';
import type { Animal, Notebook } from '../../shared/notebook.ts';
import { newest } from './cell.ts';
import { presentAnimals } from './present.ts';
import { animalOf, byText } from './read.ts';
import { orderBefore } from './record-sets.ts';
import { say } from '../text/say.ts';

/** The two orders of a day: cups at the bench, animals in the yard. */
export type LineKind = 'bench' | 'yard';

/**
 * The animals present on a day in bench or yard order. An animal never moved in that line stands where
 * the notebook's own order has it; cups are numbered by the bench order, from 1.
 */
export function lineOf(notebook: Notebook, dayId: string, kind: LineKind): readonly Animal[] {
  const moved = notebook[kind][dayId];
  const present = presentAnimals(notebook, dayId);
  if (moved === undefined) return present;
  const keyOf = (animal: Animal): string => newest(moved[animal.id]) ?? animal.order ?? '';
  return [...present].sort((a, b) => byText(keyOf(a), keyOf(b)) || byText(a.id, b.id));
}

/** Puts an animal right behind another one in a line (`null`: first). */
export function putBehind(
  notebook: Notebook,
  dayId: string,
  kind: LineKind,
  row: string,
  behind: string | null,
): Edit {
  const moved = notebook[kind][dayId] ?? {};
  const line = lineOf(notebook, dayId, kind)
    .filter((animal) => animal.id !== row)
    .map(({ id, order }) => ({ id, order: newest(moved[id]) ?? order ?? '' }));
  const at = behind === null ? 0 : line.findIndex((place) => place.id === behind) + 1;
  const order = orderBefore(line, row, line[at]?.id ?? null);
  const tag = animalOf(notebook, row)?.tag ?? row;
  return {
    label:
      kind === 'bench'
        ? say('the place of {tag} at the bench', { tag })
        : say('the place of {tag} in the yard', { tag }),
    source: 'typed',
    sets: [{ path: [kind, dayId, row], value: order }],
  };
}
