import type { Notebook } from '../shared/notebook.ts';
import type { DayId, RowId } from '../shared/ref.ts';
import type { Value } from '../shared/value.ts';
import { partColumnOf } from '../src/notebook/lanes.ts';
import { columnByKey, dayOf, readingOf } from '../src/notebook/read.ts';
import { eggFactor } from '../src/stats/egg-factor.ts';
import { mainCounts } from './cup-state.ts';

/** What a cup whose counts hold a bound says of its epg; never a figure for means or lists. */
export interface BoundEpg {
  readonly is: 'at least' | 'at most' | 'too many' | 'not settled';
  /** Eggs per gram; null where there is no number to it. */
  readonly epg: number | null;
}

/**
 * `>40` holds at least 41 eggs, `<5` at most 4; together with the counts given and the areas they
 * cover (own factor of the row where it is typed) that bounds the epg. Null for a cup without bounds.
 */
export function boundEpg(
  notebook: Notebook,
  day: DayId,
  row: RowId,
  value: (key: string) => Value,
): BoundEpg | null {
  let areas = 0;
  let least = 0;
  let most = 0;
  const kinds = new Set<string>();
  for (const column of mainCounts(notebook)) {
    const reading = readingOf(notebook, day, row, column.id);
    if (reading === undefined || reading.kind === 'text' || reading.kind === 'tick') continue;
    kinds.add(reading.kind);
    if (reading.kind === 'too-many' || reading.kind === 'fault') continue;
    areas += partOf(notebook, day, row, column.key);
    least +=
      reading.kind === 'over' ? reading.value + 1 : reading.kind === 'under' ? 0 : reading.value;
    most += reading.kind === 'under' ? reading.value - 1 : reading.value;
  }
  if (kinds.has('too-many') && least === 0) return { is: 'too many', epg: null };
  const isOver = kinds.has('over') || kinds.has('too-many');
  if (!isOver && !kinds.has('under')) return null;
  if (isOver && kinds.has('under')) return { is: 'not settled', epg: null };
  const factor = factorOf(notebook, day, row, areas, value);
  if (factor === null) return { is: isOver ? 'at least' : 'at most', epg: null };
  return isOver ? { is: 'at least', epg: least * factor } : { is: 'at most', epg: most * factor };
}

function partOf(notebook: Notebook, day: DayId, row: RowId, countKey: string): number {
  const part = partColumnOf(notebook, { key: countKey });
  const reading = part && readingOf(notebook, day, row, part.id);
  return reading?.kind === 'number' ? reading.value : 1;
}

/** The factor over the areas of all counts, bounds too; one typed in the row is taken as it is. */
function factorOf(
  notebook: Notebook,
  day: DayId,
  row: RowId,
  areas: number,
  value: (key: string) => Value,
): number | null {
  const typed = columnByKey(notebook, 'factor');
  const own = typed && readingOf(notebook, day, row, typed.id);
  if (own?.kind === 'number') return own.value;
  const copy = dayOf(notebook, day);
  const grams = numberOr(value('grams'), copy?.grams);
  const made = copy?.fluidMl;
  const added = made !== undefined && copy?.fluidIs === 'made up to' ? made - (grams ?? 0) : made;
  const fluid = numberOr(value('fluid'), added);
  const area = numberOr(value('area'), copy?.areaMl);
  if (grams === undefined || fluid === undefined || area === undefined) {
    const factor = value('factor');
    return typeof factor === 'number' ? factor : null;
  }
  const factor = eggFactor(grams, fluid, area, areas);
  return typeof factor === 'number' ? factor : null;
}

function numberOr(value: Value, other: number | undefined): number | undefined {
  return typeof value === 'number' ? value : other;
}
