import type { Column, Notebook } from '../../shared/notebook.ts';
import type { DayId, RowId } from '../../shared/ref.ts';
import { columnByKey, dayOf, defaultsOf, readingOf } from './read.ts';

/** More lanes than this are no choice to pick from; their number is typed. */
const MOST_LANES = 12;

/** The column that says which part of a count's grid was counted: `part1` for `chamber1`. */
export function partColumnOf(notebook: Notebook, count: Pick<Column, 'key'>): Column | undefined {
  return columnByKey(notebook, `part${/\d+$/.exec(count.key)?.[0] ?? ''}`);
}

/**
 * The parts of a grid that can be counted lane by lane, as they are typed: `1/6` … `5/6` for a day
 * whose grids have six lanes. None where the lanes are not known, or too many to choose from.
 */
export function laneParts(notebook: Notebook, day: DayId): readonly string[] {
  const lanes = dayOf(notebook, day)?.lanes ?? defaultsOf(notebook).lanes ?? 0;
  if (!Number.isInteger(lanes) || lanes < 2 || lanes > MOST_LANES) return [];
  return Array.from({ length: lanes - 1 }, (_, i) => `${i + 1}/${lanes}`);
}

/**
 * The column for the part of this count's grid, where it is asked for: too many eggs, more than a
 * number of them, or a part typed already. Undefined where the whole grid is the usual thing.
 */
export function partAsked(
  notebook: Notebook,
  day: DayId,
  row: RowId,
  count: Column,
): Column | undefined {
  const part = partColumnOf(notebook, count);
  if (!part) return undefined;
  const kind = readingOf(notebook, day, row, count.id)?.kind;
  const isMany = kind === 'too-many' || kind === 'over';
  const isTyped = readingOf(notebook, day, row, part.id) !== undefined;
  return isMany || isTyped || part.hidden !== true ? part : undefined;
}
