import type { Animal, Notebook } from '../shared/notebook.ts';
import { newest } from '../src/notebook/cell.ts';
import { animalOf } from '../src/notebook/read.ts';
import { dateWords } from '../src/text/date-words.ts';
import { say } from '../src/text/say.ts';

/** Some animals, for a sentence about them: one by its tag, more by their number. */
export function whoOf(animals: readonly Animal[]): { readonly n: number; readonly tag: string } {
  return { n: animals.length, tag: animals[0]?.tag ?? '' };
}

/**
 * What a move of animals to a group comes to, in a sentence; an animal that has a move of its own at a
 * later date stays in this group only until then, and that is said with it.
 */
export function moveSentence(
  notebook: Notebook,
  ids: readonly string[],
  group: string,
  date: string,
): string {
  const facts = {
    n: ids.length,
    tag: animalOf(notebook, ids[0] ?? '')?.tag ?? '',
    date: dateWords(date),
    group,
  };
  const said =
    group === ''
      ? say('{n, plural, one {{tag}} other {# animals}} from {date} on in no group.', facts)
      : say('{n, plural, one {{tag}} other {# animals}} from {date} on in {group}.', facts);
  const later = ids.flatMap((id) => nextMove(notebook, id, date, group) ?? []);
  const [first] = later;
  if (!first) return said;
  const more = say(
    '{n, plural, one {A later move stays} other {# later moves stay}}: {tag} is in {group} from {date} on.',
    {
      n: later.length,
      tag: animalOf(notebook, first.id)?.tag ?? '',
      group: first.group === '' ? say('no group') : first.group,
      date: dateWords(first.date),
    },
  );
  return `${said} ${more}`;
}

/** The first move of an animal after a date that takes it into another group. */
function nextMove(
  notebook: Notebook,
  id: string,
  after: string,
  group: string,
): { readonly id: string; readonly date: string; readonly group: string } | undefined {
  return Object.entries(notebook.groups[id] ?? {})
    .map(([date, cell]) => ({ id, date, group: newest(cell) }))
    .filter((move) => move.date > after && move.group !== undefined && move.group !== group)
    .map((move) => ({ ...move, group: move.group ?? '' }))
    .sort((a, b) => (a.date < b.date ? -1 : 1))[0];
}

/** That a group is known whose name differs only by capitals or spaces; empty where none is. */
export function likeGroup(notebook: Notebook, typed: string): string {
  const plain = (name: string): string => name.trim().replace(/\s+/g, ' ').toLowerCase();
  const names = new Set(
    Object.values(notebook.groups).flatMap((moves) =>
      Object.values(moves).flatMap((cell) => newest(cell) ?? []),
    ),
  );
  const name = typed.trim();
  if (name === '' || names.has(name)) return '';
  const known = [...names].find((one) => plain(one) === plain(name));
  return known === undefined
    ? ''
    : say('There is a group “{known}” already. “{name}” will be another one.', { known, name });
}
