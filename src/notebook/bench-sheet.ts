import type { Column, Notebook } from '../../shared/notebook.ts';
import { lineOf, type LineKind } from './line.ts';
import { groupOn } from './present.ts';
import { columnsOf, dayOf } from './read.ts';

/** A sheet to write on: a line for each animal, an empty cell for each thing to be written down. */
export interface BenchSheet {
  readonly columns: readonly Column[];
  readonly rows: readonly {
    readonly number: number;
    readonly tag: string;
    readonly name: string;
    readonly group: string;
  }[];
}

/**
 * The sheet for the bench (what is about the cup) or the yard (what is about the animal), in that
 * order: the columns that are typed and shown, and the egg types the day looks for.
 */
export function benchSheet(notebook: Notebook, dayId: string, kind: LineKind): BenchSheet {
  const day = dayOf(notebook, dayId);
  const lookedFor = new Set(day?.lookedFor ?? []);
  const isTyped = (column: Column): boolean =>
    column.kind !== 'formula' && column.kind !== 'outcome' && column.key !== 'status';
  const columns = columnsOf(notebook).filter(
    (column) =>
      isTyped(column) &&
      (column.about === 'cup') === (kind === 'bench') &&
      (column.hidden !== true || lookedFor.has(column.id)),
  );
  const rows = lineOf(notebook, dayId, kind).map((animal, i) => ({
    number: i + 1,
    tag: animal.tag,
    name: animal.name ?? '',
    group: groupOn(notebook, animal.id, day?.date ?? dayId) ?? '',
  }));
  return { columns, rows };
}

/** Cuts a list into pieces of at most `size`: dates side by side on one page, labels on one sheet. */
export function pagesOf<T>(items: readonly T[], size: number): readonly (readonly T[])[] {
  const pages: T[][] = [];
  for (let from = 0; from < items.length; from += size) pages.push(items.slice(from, from + size));
  return pages;
}
