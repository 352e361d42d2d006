import type { Edit } from '../shared/edit.ts';
import type { Notebook } from '../shared/notebook.ts';
import type { Value } from '../shared/value.ts';
import { isFault } from '../shared/value.ts';
import type { Outcome } from '../src/notebook/outcome.ts';
import { presentAnimals } from '../src/notebook/present.ts';
import { columnByKey } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { decide, decisionValues, isAgainstList, startingReason } from '../src/treating/decision.ts';
import {
  listEntry,
  listOfEntries,
  type ListEntry,
  type TreatmentList,
} from '../src/treating/treatment-list.ts';
import { breathe } from './after-paint.ts';
import { boundEpg, type BoundEpg } from './bound-epg.ts';

/** The open day's treatment list, and what cups with a bound say of their epg. */
export interface DayList {
  readonly day: string;
  readonly list: TreatmentList;
  readonly bounds: ReadonlyMap<string, BoundEpg>;
}

/** Rows looked at before the page may paint again. */
const slice = 200;

/** What the day's criteria say of every animal present. Null while no day is open. */
export async function dayList(session: Session, signal: AbortSignal): Promise<DayList | null> {
  const { notebook, openDay: day, engine } = session;
  if (day === null) return null;
  const valueOf = (row: string, key: string): Value => {
    const column = columnByKey(notebook, key);
    return column ? engine.value(row, column.id) : null;
  };
  const entries: ListEntry[] = [];
  const bounds = new Map<string, BoundEpg>();
  for (const [at, animal] of presentAnimals(notebook, day).entries()) {
    if (at > 0 && at % slice === 0) {
      await breathe();
      signal.throwIfAborted();
    }
    const { id: row } = animal;
    const entry = listEntry(notebook, day, animal, {
      row,
      answers: engine.criteria(row),
      epg: valueOf(row, 'epg'),
      weightKg: valueOf(row, 'weight'),
    });
    entries.push(entry);
    const bound = entry.epg === null && boundEpg(notebook, day, row, (key) => valueOf(row, key));
    if (bound) bounds.set(row, bound);
  }
  return { day, list: listOfEntries(notebook, day, entries), bounds };
}

/** Animals that lack, or were not looked at for, the same things, together. */
export function byLack(
  entries: readonly ListEntry[],
  lackOf: (outcome: Outcome) => readonly string[],
): readonly { readonly lack: readonly string[]; readonly entries: readonly ListEntry[] }[] {
  const groups = new Map<string, { lack: readonly string[]; entries: ListEntry[] }>();
  for (const entry of entries) {
    const lack = lackOf(entry.outcome);
    const name = lack.join('\n');
    const group = groups.get(name) ?? { lack, entries: [] };
    group.entries.push(entry);
    groups.set(name, group);
  }
  return [...groups.values()];
}

/**
 * The edit that records what a person decided for some animals. Where no reason is given, one that was typed
 * for the same decision stays, else the list's own reasons stand.
 */
export function deciding(
  notebook: Notebook,
  day: string,
  entries: readonly ListEntry[],
  treat: boolean,
  reason?: string,
): Edit | null {
  const decisions = entries.map(({ animal, outcome, epg, decision, sentence }) => ({
    animal: animal.id,
    treat,
    reason:
      reason ??
      (decision?.treat === treat && decision.reason !== '' && isAgainstList(outcome, treat)
        ? decision.reason
        : startingReason(outcome, treat)),
    values: decisionValues(notebook, day, animal.id, { epg, outcome: sentence }),
  }));
  const edit = decide(notebook, day, decisions);
  return isFault(edit) ? null : edit;
}
