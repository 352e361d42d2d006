import type { Animal } from '../shared/notebook.ts';
import type { Notice, Session } from '../src/session/session.ts';
import { groupOn, presentAnimals } from '../src/notebook/present.ts';
import { columnByKey, dayOf } from '../src/notebook/read.ts';
import { boundEpg, type BoundEpg } from './bound-epg.ts';
import { mainCounts } from './cup-state.ts';
import { RowMemo } from './row-memo.ts';
import { valueByKey } from './row-values.ts';

/** The open day's counts side by side, one entry for each animal present, `null` where not counted. */
export interface HerdLists {
  readonly animals: readonly Animal[];
  readonly eggs: readonly (number | null)[];
  readonly factors: readonly (number | null)[];
  readonly epgs: readonly (number | null)[];
  /** How many have an epg. */
  readonly counted: number;
  /** Animals with more eggs than could be counted: in no list, but to be named beside every mean. */
  readonly tooMany: readonly Animal[];
}

/**
 * Whether what happened may have changed the open day's counts: a count, its factor, a status, or more than
 * cells. A weight or a score changes no list here.
 */
export function isAboutCounts({ refs, isWide }: Notice, { notebook }: Session): boolean {
  if (isWide) return true;
  const ids = new Set(mainCounts(notebook).map(({ id }) => id));
  for (const key of ['epg', 'eggs', 'factor', 'status']) {
    const column = columnByKey(notebook, key);
    if (column) ids.add(column.id);
  }
  return refs.some(({ column }) => ids.has(column));
}

/** One animal's part of the lists. */
interface Numbers {
  readonly eggs: number | null;
  readonly factor: number | null;
  readonly epg: number | null;
  readonly isTooMany: boolean;
}

const numbersOf = new RowMemo<Numbers>((session, row) => {
  const value = valueByKey(session, row);
  const epg = value('epg');
  const isKnown = typeof epg === 'number';
  const eggs = isKnown ? value('eggs') : null;
  const factor = isKnown ? value('factor') : null;
  return {
    epg: isKnown ? epg : null,
    eggs: typeof eggs === 'number' ? eggs : null,
    factor: typeof factor === 'number' ? factor : null,
    isTooMany: !isKnown && isTooMany(boundOf(session, session.openDay ?? '', row)),
  };
});

/** Looks every animal present up in slices, so that `herdLists` then has no long work to do. */
export async function herdReady(session: Session, signal: AbortSignal): Promise<void> {
  const { notebook, openDay } = session;
  if (openDay === null || !columnByKey(notebook, 'epg')) return;
  const rows = presentAnimals(notebook, openDay).map(({ id }) => id);
  await numbersOf.ready(session, rows, signal);
}

const listsOf = new WeakMap<Session, Map<string | null, HerdLists>>();

/**
 * Of one group, or of all present; null while no day is open or the notebook has no epg. The same lists
 * are the same object until something changes.
 */
export function herdLists(session: Session, group: string | null = null): HerdLists | null {
  const { notebook, openDay } = session;
  if (openDay === null || !columnByKey(notebook, 'epg')) return null;
  let groups = listsOf.get(session);
  if (!groups) {
    const kept = (groups = new Map<string | null, HerdLists>());
    listsOf.set(session, kept);
    session.subscribe(() => kept.clear());
  }
  let lists = groups.get(group);
  if (!lists) groups.set(group, (lists = listsNow(session, openDay, group)));
  return lists;
}

function listsNow(session: Session, openDay: string, group: string | null): HerdLists {
  const { notebook } = session;
  const date = dayOf(notebook, openDay)?.date ?? openDay;
  const present = presentAnimals(notebook, openDay);
  const animals =
    group === null ? present : present.filter(({ id }) => groupOn(notebook, id, date) === group);
  const numbers = animals.map(({ id }) => numbersOf.get(session, id));
  return {
    animals,
    eggs: numbers.map(({ eggs }) => eggs),
    factors: numbers.map(({ factor }) => factor),
    epgs: numbers.map(({ epg }) => epg),
    counted: numbers.reduce((sum, { epg }) => sum + (epg === null ? 0 : 1), 0),
    tooMany: animals.filter((_, i) => numbers[i]?.isTooMany === true),
  };
}

function boundOf(session: Session, day: string, row: string): BoundEpg | null {
  return boundEpg(session.notebook, day, row, valueByKey(session, row));
}

function isTooMany(bound: BoundEpg | null): boolean {
  return bound?.is === 'too many' || bound?.is === 'at least';
}
