import type { RowId } from '../shared/ref.ts';
import type { Notice, Session } from '../src/session/session.ts';
import { columnsOf, dayOf, defaultsOf } from '../src/notebook/read.ts';
import { breather } from './breather.ts';

/**
 * What is worked out for each animal of the open day, kept until that row changes: of 10,000 animals a typed
 * count looks at one. All is forgotten when more than cells changed, or when formulas look across animals.
 */
export class RowMemo<T> {
  private readonly sessions = new WeakMap<Session, Map<RowId, T>>();

  constructor(private readonly work: (session: Session, row: RowId) => T) {}

  get(session: Session, row: RowId): T {
    const rows = this.rowsOf(session);
    let found = rows.get(row);
    if (found === undefined) rows.set(row, (found = this.work(session, row)));
    return found;
  }

  /** Works all these rows out, in slices. Rejects with an AbortError once `signal` is aborted. */
  async ready(session: Session, rows: Iterable<RowId>, signal: AbortSignal): Promise<void> {
    const breath = breather(signal);
    const kept = this.rowsOf(session);
    for (const row of rows) {
      // After a typed count all but one are known, and looking at the clock for each would be the dearest part.
      if (kept.has(row)) continue;
      if (breath.isDue) await breath.take();
      this.get(session, row);
    }
  }

  private rowsOf(session: Session): Map<RowId, T> {
    let rows = this.sessions.get(session);
    if (!rows) {
      rows = new Map<RowId, T>();
      this.sessions.set(session, rows);
      const kept = rows;
      session.subscribe((notice) => forget(kept, notice, session));
    }
    return rows;
  }
}

function forget<T>(rows: Map<RowId, T>, { refs, isWide }: Notice, session: Session): void {
  if (isWide || looksAcross(session)) rows.clear();
  else for (const { row } of refs) rows.delete(row);
}

const acrossKept = new WeakMap<object, boolean>();

/** Whether some column or criterion names other animals: by the herd, or by a figure of it. */
function looksAcross({ notebook, openDay }: Session): boolean {
  let columns = acrossKept.get(notebook.columns);
  if (columns === undefined) {
    columns = columnsOf(notebook).some(({ formula }) => isAcross(formula));
    acrossKept.set(notebook.columns, columns);
  }
  const criteria = dayOf(notebook, openDay ?? '')?.criteria ?? defaultsOf(notebook).criteria ?? [];
  return columns || criteria.some(({ condition }) => isAcross(condition));
}

function isAcross(formula: string | undefined): boolean {
  return formula !== undefined && /\{f:|\bherd\b/i.test(formula);
}
