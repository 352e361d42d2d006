import { dayBefore } from '../src/notebook/read.ts';
import { showDayId } from '../src/text/day-id.ts';
import type { GridModel } from './grid-model.ts';
import type { Spot } from './grid-place.ts';

/**
 * The name in formulas of what was clicked: a cell of the open day by its column's own name (this
 * animal, this day), one of the day before as `previous.…`, of any other day as the herd's list of
 * that day; the name of a column as the herd's list.
 */
export function offeredName(
  model: GridModel,
  under: { readonly on: string; readonly spot?: Spot; readonly column?: number },
): string | null {
  const at =
    under.on === 'cell' ? under.spot?.column : under.on === 'head' ? under.column : undefined;
  const column = at === undefined ? undefined : model.sheet.layout.columns[at];
  if (!column) return null;
  const { key } = column.column;
  if (under.on === 'head') return column.isOpen ? `herd.${key}` : dated(column.day, key);
  if (column.isOpen) return key;
  const { openDay, session } = model;
  const before = openDay === null ? undefined : dayBefore(session.notebook, openDay);
  return before?.id === column.day ? `previous.${key}` : dated(column.day, key);
}

function dated(day: string, key: string): string {
  return `herd[${showDayId(day)}].${key}`;
}
