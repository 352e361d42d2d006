import type { Column, Notebook } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { newest } from '../notebook/cell.ts';
import { columnsOf } from '../notebook/read.ts';

/** Shown to the vet whether or not the page shows them: without these an epg cannot be judged. */
const always = new Set([
  ...['status', 'chamber1', 'chamber2', 'eggs', 'grams', 'fluid', 'area', 'factor'],
  ...['epg', 'epg_low', 'epg_high', 'weight', 'note'],
]);

/** Told by columns of their own, from the log. */
const told = new Set(['after_treatment', 'decision']);

/** Headings that a reader without the notebook needs in full. */
const headings: Readonly<Record<string, string>> = {
  eggs: 'strongyle-type eggs seen',
  epg: 'strongyle-type eggs per gram (epg)',
  epg_low: 'epg, lower 95 % limit',
  epg_high: 'epg, upper 95 % limit',
};

/**
 * The columns that a vet gets of these days, in the notebook's order: what every egg count needs, what
 * the page shows, and whatever else something was typed in.
 */
export function vetColumns(notebook: Notebook, days: readonly DayId[]): readonly Column[] {
  const used = usedColumns(notebook, days);
  return columnsOf(notebook).filter(
    ({ id, key, hidden }) => !told.has(key) && (always.has(key) || hidden !== true || used.has(id)),
  );
}

function usedColumns(notebook: Notebook, days: readonly DayId[]): ReadonlySet<string> {
  const used = new Set<string>();
  for (const day of days)
    for (const row of Object.values(notebook.readings[day] ?? {}))
      for (const [column, cell] of Object.entries(row))
        if (newest(cell) !== undefined) used.add(column);
  return used;
}

/** A column's heading with its unit: `fluid added (mL)`. */
export function vetHeading({ key, label, unit }: Column): string {
  const words = headings[key] ?? label ?? key;
  return unit && headings[key] === undefined ? `${words} (${unit})` : words;
}
