import type { Notebook } from '../../shared/notebook.ts';
import type { DayId, RowId } from '../../shared/ref.ts';
import { partColumnOf } from '../notebook/lanes.ts';
import { columnsOf, readingOf } from '../notebook/read.ts';

/**
 * How many counted areas a row's strongyle-type count covers: one for each chamber with a number, or the
 * part of it that was typed. `null` where nothing was counted.
 */
export function areasCounted(notebook: Notebook, day: DayId, row: RowId): number | null {
  let areas: number | null = null;
  for (const { id, key, kind, otherEggs } of columnsOf(notebook)) {
    if (kind !== 'count' || otherEggs === true) continue;
    if (readingOf(notebook, day, row, id)?.kind !== 'number') continue;
    const part = partColumnOf(notebook, { key });
    const typed = part && readingOf(notebook, day, row, part.id);
    areas = (areas ?? 0) + (typed?.kind === 'number' ? typed.value : 1);
  }
  return areas === null ? null : Number(areas.toFixed(6));
}
