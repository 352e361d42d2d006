import type { DayId, RowId } from '../shared/ref.ts';
import { outcomeOf, type Outcome } from '../src/notebook/outcome.ts';
import { aboutOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { cupState } from './cup-state.ts';
import type { CellSource } from './grid-cell-text.ts';
import { valueByKey } from './row-values.ts';

/** What the criteria of the open day say of an animal; null while no day is open. */
export function openOutcome(session: Session, row: RowId): Outcome | null {
  const { notebook, openDay, engine } = session;
  return openDay === null ? null : outcomeOf(notebook, openDay, engine.criteria(row));
}

/** What the open day's cells of a row are worded from, in the grid and on one animal's card alike. */
export function cellSource(session: Session, day: DayId, row: RowId): CellSource {
  const { notebook, engine, typingRow } = session;
  const { decimalMark = '.', weightUnit = 'kg' } = aboutOf(notebook);
  return {
    notebook,
    day,
    row,
    decimalMark,
    weightUnit,
    cup: cupState(notebook, day, row),
    isTyping: typingRow === row,
    outcome: () => openOutcome(session, row),
    value: (column) => engine.value(row, column.id),
    valueOfKey: valueByKey(session, row),
  };
}
