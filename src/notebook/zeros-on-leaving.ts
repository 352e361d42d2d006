import type { Edit } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { animalOf, columnOf, columnsOf, dayOf, readingOf } from './read.ts';
import { say } from '../text/say.ts';

/**
 * The edit that fills a counted cup's blank further egg types with 0, for the types this day says
 * were looked for; null when nothing is to be filled. A cup is counted when some strongyle-type
 * count stands in it as a number; a cup with a status (spoiled, not sampled) is left alone.
 */
export function zerosOnLeaving(notebook: Notebook, day: string, row: string): Edit | null {
  const lookedFor = dayOf(notebook, day)?.lookedFor ?? [];
  if (lookedFor.length === 0) return null;
  const status = columnsOf(notebook).find((column) => column.key === 'status');
  const state = status && readingOf(notebook, day, row, status.id)?.text;
  if (state !== undefined && state !== 'sampled') return null;
  const isCounted = columnsOf(notebook).some(
    (column) =>
      column.kind === 'count' &&
      column.otherEggs !== true &&
      readingOf(notebook, day, row, column.id)?.kind === 'number',
  );
  if (!isCounted) return null;
  const sets = lookedFor
    .filter(
      (id) => columnOf(notebook, id)?.removed !== true && columnOf(notebook, id)?.kind === 'count',
    )
    .filter((id) => readingOf(notebook, day, row, id) === undefined)
    .map((id) => ({
      path: ['readings', day, row, id] as const,
      value: { kind: 'number', text: '0', value: 0 },
    }));
  if (sets.length === 0) return null;
  const who = animalOf(notebook, row)?.tag ?? row;
  return {
    label: say('zeros for the egg types looked for in {who}', { who }),
    source: 'fill',
    sets,
  };
}
