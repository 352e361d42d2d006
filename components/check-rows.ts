import type { Column } from '../shared/notebook.ts';
import type { DayId } from '../shared/ref.ts';
import type { Value } from '../shared/value.ts';
import { columnByKey, columnsOf, dayOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import type { CountRow } from '../src/treating/check-pairs.ts';
import type { OtherEggs } from '../src/treating/reduction-check.ts';

/** Counts of the two days of a dewormer check, further egg types apart. */
export interface CheckCounts {
  readonly before: readonly CountRow[];
  readonly after: readonly CountRow[];
  readonly others: readonly OtherEggs[];
}

/** Asks the engine for one column of a day after the other, so that a newer edit can stop it in between. */
export async function checkCounts(
  session: Session,
  before: DayId,
  after: DayId,
  signal: AbortSignal,
): Promise<CheckCounts | null> {
  const { notebook, engine } = session;
  const keys = ['eggs', 'factor', 'epg'].map((key) => columnByKey(notebook, key));
  const [eggs, factor, epg] = keys;
  if (!eggs || !factor || !epg) return null;
  const column = async (day: DayId, { id }: Column): Promise<ReadonlyMap<string, Value>> => {
    const values = await engine.dayColumn(notebook, day, id);
    signal.throwIfAborted();
    return values;
  };
  const main = async (day: DayId): Promise<readonly CountRow[]> => {
    const [counts, factors, epgs] = [
      await column(day, eggs),
      await column(day, factor),
      await column(day, epg),
    ];
    return [...epgs].map(([row, value]) => ({
      row,
      eggs: counts.get(row) ?? null,
      factor: factors.get(row) ?? null,
      epg: value,
    }));
  };
  const other = async (day: DayId, type: Column): Promise<readonly CountRow[]> => {
    const [counts, factors] = [await column(day, type), await column(day, factor)];
    return [...counts].map(([row, count]) => {
      const by = factors.get(row) ?? null;
      const isCounted = typeof count === 'number' && typeof by === 'number';
      return { row, eggs: count, factor: by, epg: isCounted ? count * by : null };
    });
  };
  const found: CheckCounts = { before: await main(before), after: await main(after), others: [] };
  const others: OtherEggs[] = [];
  const isLookedFor = (day: DayId, id: string): boolean =>
    dayOf(notebook, day)?.lookedFor?.includes(id) === true;
  for (const type of columnsOf(notebook)) {
    if (type.otherEggs !== true || type.kind !== 'count') continue;
    if (!isLookedFor(before, type.id) || !isLookedFor(after, type.id)) continue;
    const label = type.label ?? type.key;
    others.push({ label, before: await other(before, type), after: await other(after, type) });
  }
  return { ...found, others };
}
