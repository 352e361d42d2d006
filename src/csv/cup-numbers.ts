import type { Notebook } from '../../shared/notebook.ts';
import type { DayId, RowId } from '../../shared/ref.ts';
import { newest } from '../notebook/cell.ts';
import { presentAnimals } from '../notebook/present.ts';
import { byText, columnByKey, readingOf } from '../notebook/read.ts';

/**
 * The number of each sampled animal's own cup on a day: its place in the order at the bench, counted
 * from 1. An animal said not to be sampled, or for which nothing was typed, has no cup.
 */
export function cupNumbers(notebook: Notebook, day: DayId): ReadonlyMap<RowId, number> {
  const bench = notebook.bench[day] ?? {};
  const status = columnByKey(notebook, 'status')?.id;
  const readings = notebook.readings[day] ?? {};
  const sampled = presentAnimals(notebook, day)
    .filter(({ id }) => {
      const typed = Object.values(readings[id] ?? {}).some((cell) => newest(cell) !== undefined);
      const said = status && readingOf(notebook, day, id, status)?.text;
      return typed && said !== 'not sampled';
    })
    .map(({ id }, place) => ({ id, place, order: newest(bench[id]) ?? null }));
  sampled.sort((a, b) =>
    a.order !== null && b.order !== null
      ? byText(a.order, b.order) || a.place - b.place
      : a.order === b.order
        ? a.place - b.place
        : a.order === null
          ? 1
          : -1,
  );
  return new Map(sampled.map(({ id }, at) => [id, at + 1]));
}
