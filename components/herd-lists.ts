import type { Animal } from '../shared/notebook.ts';
import type { Notice, Session } from '../src/session/session.ts';
import { groupOn, presentAnimals } from '../src/notebook/present.ts';
import { columnByKey, dayOf } from '../src/notebook/read.ts';
import { boundEpg, type BoundEpg } from './bound-epg.ts';
import { mainCounts } from './cup-state.ts';
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

/** Of one group, or of all present; null while no day is open or the notebook has no epg. */
export function herdLists(session: Session, group: string | null = null): HerdLists | null {
  const { notebook, openDay, engine } = session;
  const [epgId, eggsId, factorId] = ['epg', 'eggs', 'factor'].map(
    (key) => columnByKey(notebook, key)?.id,
  );
  if (openDay === null || epgId === undefined) return null;
  const date = dayOf(notebook, openDay)?.date ?? openDay;
  const animals = presentAnimals(notebook, openDay).filter(
    ({ id }) => group === null || groupOn(notebook, id, date) === group,
  );
  const eggs: (number | null)[] = [];
  const factors: (number | null)[] = [];
  const epgs: (number | null)[] = [];
  const tooMany: Animal[] = [];
  let counted = 0;
  for (const animal of animals) {
    const epg = engine.value(animal.id, epgId);
    const known = typeof epg === 'number';
    const seen = known && eggsId !== undefined ? engine.value(animal.id, eggsId) : null;
    const factor = known && factorId !== undefined ? engine.value(animal.id, factorId) : null;
    epgs.push(known ? epg : null);
    eggs.push(typeof seen === 'number' ? seen : null);
    factors.push(typeof factor === 'number' ? factor : null);
    if (known) counted += 1;
    else if (isTooMany(boundOf(session, openDay, animal.id))) tooMany.push(animal);
  }
  return { animals, eggs, factors, epgs, counted, tooMany };
}

function boundOf(session: Session, day: string, row: string): BoundEpg | null {
  return boundEpg(session.notebook, day, row, valueByKey(session, row));
}

function isTooMany(bound: BoundEpg | null): boolean {
  return bound?.is === 'too many' || bound?.is === 'at least';
}
