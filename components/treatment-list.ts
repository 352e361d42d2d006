import type { Edit } from '../shared/edit.ts';
import type { Notebook } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import type { Outcome } from '../src/notebook/outcome.ts';
import { presentAnimals } from '../src/notebook/present.ts';
import { animalOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { decide, decisionValues, isAgainstList, startingReason } from '../src/treating/decision.ts';
import {
  listEntry,
  listOfEntries,
  type ListEntry,
  type TreatmentList,
} from '../src/treating/treatment-list.ts';
import { breathe } from './breather.ts';
import { boundEpg, type BoundEpg } from './bound-epg.ts';
import { RowMemo } from './row-memo.ts';
import { valueByKey } from './row-values.ts';

/** The open day's treatment list, and what cups with a bound say of their epg. */
export interface DayList {
  readonly day: string;
  readonly list: TreatmentList;
  readonly bounds: ReadonlyMap<string, BoundEpg>;
}

interface Looked {
  readonly entry: ListEntry;
  readonly bound: BoundEpg | null;
}

/** What is said of one animal of the open day. */
const lookedAt = new RowMemo<Looked | null>((session, row) => {
  const { notebook, openDay: day, engine } = session;
  const animal = animalOf(notebook, row);
  if (day === null || !animal) return null;
  const value = valueByKey(session, row);
  const entry = listEntry(notebook, day, animal, {
    row,
    answers: engine.criteria(row),
    epg: value('epg'),
    weightKg: value('weight'),
  });
  return { entry, bound: entry.epg === null ? boundEpg(notebook, day, row, value) : null };
});

/** What the day's criteria say of every animal present. Null while no day is open. */
export async function dayList(session: Session, signal: AbortSignal): Promise<DayList | null> {
  const { notebook, openDay: day } = session;
  if (day === null) return null;
  const rows = presentAnimals(notebook, day).map(({ id }) => id);
  await lookedAt.ready(session, rows, signal);
  const entries: ListEntry[] = [];
  const bounds = new Map<string, BoundEpg>();
  for (const row of rows) {
    const looked = lookedAt.get(session, row);
    if (looked) entries.push(looked.entry);
    if (looked?.bound) bounds.set(row, looked.bound);
  }
  await breathe();
  signal.throwIfAborted();
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
