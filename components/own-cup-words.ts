import type { Column, Cup, Notebook } from '../shared/notebook.ts';
import { factorOf } from '../src/notebook/day-factor.ts';
import { animalOf, columnsOf, markOf, readingOf } from '../src/notebook/read.ts';
import { say } from '../src/text/say.ts';
import { areasCounted, mainCounts } from './cup-state.ts';
import { figureText } from './figure-text.ts';

/** What is typed of a cup of its own: the eggs, and the parts of the areas they were counted in. */
export function cupColumns(notebook: Notebook): readonly Column[] {
  return columnsOf(notebook).filter(
    ({ kind, hidden }) => (kind === 'count' || kind === 'part') && hidden !== true,
  );
}

/** Tags of the animals whose dung it holds, as they are typed: `K-03, K-07`; empty for nobody's yet. */
export function cupTags(notebook: Notebook, { animalIds = [] }: Cup): string {
  return animalIds.flatMap((id) => animalOf(notebook, id)?.tag ?? []).join(', ');
}

/** What a cup comes to by the day's protocol, and whose figure that is; empty while nothing was counted. */
export function cupWords(notebook: Notebook, cup: Cup): string {
  const { id, day = '', animalIds = [] } = cup;
  const typed = mainCounts(notebook).flatMap(
    (column) => readingOf(notebook, day, id, column.id) ?? [],
  );
  if (typed.length === 0) return say('not counted yet');
  const numbers = typed.flatMap((reading) => (reading.kind === 'number' ? [reading.value] : []));
  const factor = factorOf(notebook, day, areasCounted(notebook, day, id));
  if (numbers.length < typed.length) return say('no epg: a count that is no number');
  if (factor === null) return say('no epg: the protocol of the day is not whole');
  const eggs = numbers.reduce((sum, value) => sum + value, 0);
  const epg = figureText(eggs * factor, 0, markOf(notebook));
  if (animalIds.length > 1)
    return say('{epg} epg, of {n} animals mixed: of no one of them, and in no mean', {
      epg,
      n: animalIds.length,
    });
  return animalIds.length === 1
    ? say('{epg} epg; it counts for {tag} once it is in that row', {
        epg,
        tag: cupTags(notebook, cup),
      })
    : say('{epg} epg, of an animal not known yet: in no mean', { epg });
}
