import type { RowId } from '../shared/ref.ts';
import { isFault, type Fault } from '../shared/value.ts';
import {
  factorSum,
  typedFactorFault,
  type FactorSum,
  type Sample,
} from '../src/notebook/factor-sum.ts';
import { partColumnOf } from '../src/notebook/lanes.ts';
import { columnByKey, dayOf, markOf, readingOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import type { Chamber } from '../src/stats/cup-sureness.ts';
import { mainCounts } from './cup-state.ts';
import { valueByKey } from './row-values.ts';

/** How a row's factor comes about: its sum, or typed, with a warning where the two are far apart. */
export interface RowMethod {
  readonly factor: number;
  readonly sum: FactorSum | null;
  readonly isTyped: boolean;
  readonly warning: Fault | null;
}

/** The grids of a row that were counted, in order, each with the part that was counted. */
export function chambersOf(session: Session, row: RowId): readonly Chamber[] {
  const { notebook, openDay } = session;
  if (openDay === null) return [];
  return mainCounts(notebook).flatMap(({ id, key }) => {
    const reading = readingOf(notebook, openDay, row, id);
    if (reading?.kind !== 'number') return [];
    const part = partColumnOf(notebook, { key });
    const share = part && readingOf(notebook, openDay, row, part.id);
    return [{ eggs: reading.value, part: share?.kind === 'number' ? share.value : 1 }];
  });
}

/** Null for a row without a factor. */
export function rowMethod(session: Session, row: RowId): RowMethod | null {
  const { notebook, openDay } = session;
  const value = valueByKey(session, row);
  const factor = value('factor');
  if (openDay === null || typeof factor !== 'number') return null;
  const mark = markOf(notebook);
  const sample = sampleOf(session, row, openDay);
  const found = sample && factorSum(sample, mark);
  const sum = found === null || isFault(found) ? null : found;
  const isTyped = isTypedIn(session, openDay, row, 'factor');
  return {
    factor,
    sum,
    isTyped,
    warning: isTyped && sum ? typedFactorFault(factor, sum, mark) : null,
  };
}

function sampleOf(session: Session, row: RowId, day: string): Sample | null {
  const value = valueByKey(session, row);
  const [grams, fluid, area] = [value('grams'), value('fluid'), value('area')];
  const areas = chambersOf(session, row).reduce((sum, { part }) => sum + part, 0);
  if (typeof grams !== 'number' || typeof fluid !== 'number' || typeof area !== 'number')
    return null;
  if (areas === 0) return null;
  const copy = dayOf(session.notebook, day);
  // The day's made-up volume stands in the sum as typed, unless the row has measures of its own.
  const isOwn = ['grams', 'fluid'].some((key) => isTypedIn(session, day, row, key));
  const { fluidMl, fluidIs } = copy ?? {};
  return fluidIs === 'made up to' && fluidMl !== undefined && !isOwn
    ? { grams, fluidMl, fluidIs, areaMl: area, areas }
    : { grams, fluidMl: fluid, fluidIs: 'added', areaMl: area, areas };
}

function isTypedIn({ notebook }: Session, day: string, row: RowId, key: string): boolean {
  const column = columnByKey(notebook, key);
  return column !== undefined && readingOf(notebook, day, row, column.id)?.kind === 'number';
}
