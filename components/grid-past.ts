import type { Notebook } from '../shared/notebook.ts';
import type { ColumnId, DayId, RowId } from '../shared/ref.ts';
import type { Value } from '../shared/value.ts';
import type { Session } from '../src/session/session.ts';

/**
 * Figures of days that are not open: asked of the engine one column at a time, after what is on the
 * screen, and kept until something they rest on changes.
 */
export class PastFigures {
  private readonly kept = new Map<string, ReadonlyMap<RowId, Value>>();
  private readonly asked = new Map<string, number>();
  private round = 0;
  private queue: Promise<void> = Promise.resolve();

  constructor(
    private readonly session: Session,
    private readonly arrived: (day: DayId) => void,
  ) {}

  /** The column's figures by row; `undefined` while the engine is asked. */
  column(day: DayId, column: ColumnId): ReadonlyMap<RowId, Value> | undefined {
    const key = `${day}\n${column}`;
    const kept = this.kept.get(key);
    if (!this.asked.has(key)) {
      this.round += 1;
      this.asked.set(key, this.round);
      const mine = this.round;
      this.queue = this.queue.then(() => this.ask(key, day, column, mine));
    }
    return kept;
  }

  /** Asks again for this day, or for all; what is kept shows until the answer is there. */
  renew(day?: DayId): void {
    for (const key of [...this.asked.keys()])
      if (day === undefined || key.startsWith(`${day}\n`)) this.asked.delete(key);
  }

  private async ask(key: string, day: DayId, column: ColumnId, mine: number): Promise<void> {
    if (this.asked.get(key) !== mine) return;
    const { notebook } = this.session;
    if (!hasColumn(notebook, day, column)) return;
    try {
      const figures = await this.session.engine.dayColumn(notebook, day, column);
      if (this.asked.get(key) !== mine) return;
      this.kept.set(key, figures);
      this.arrived(day);
    } catch {
      // A day taken away while it was asked for has no figures; what was kept stands.
      this.asked.delete(key);
    }
  }
}

function hasColumn(notebook: Notebook, day: DayId, column: ColumnId): boolean {
  return notebook.days[day] !== undefined && notebook.columns[column] !== undefined;
}
