import { readingOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { cupState } from './cup-state.ts';
import { nextWanted } from './grid-moves.ts';
import { placeAt, type Sheet, type Spot } from './grid-place.ts';

/**
 * The next cell that waits to be typed: down and up in the column, whatever that holds; along the row only
 * counts. Cups that are out wait for nothing. Null when there is none.
 */
export function nextEmpty(
  sheet: Sheet,
  { notebook }: Session,
  from: Spot,
  way: 'left' | 'right' | 'up' | 'down',
): Spot | null {
  const isAlong = way === 'up' || way === 'down';
  return nextWanted(sheet, from, way, (at) => {
    const place = placeAt(sheet, at);
    const there = sheet.layout.columns[at.column];
    if (!place || !there?.isTypable) return false;
    if (!isAlong && there.column.kind !== 'count') return false;
    if (cupState(notebook, place.day, place.row).isOut) return false;
    return readingOf(notebook, place.day, place.row, place.column) === undefined;
  });
}
