import type { Animal } from '../shared/notebook.ts';
import type { Session } from '../src/session/session.ts';
import { groupOn, presentAnimals } from '../src/notebook/present.ts';
import { columnByKey, dayOf } from '../src/notebook/read.ts';
import { boundEpg } from './bound-epg.ts';
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

/** Of one group, or of all present; null while no day is open or the notebook has no epg. */
export function herdLists(session: Session, group: string | null = null): HerdLists | null {
  const { notebook, openDay } = session;
  if (openDay === null || !columnByKey(notebook, 'epg')) return null;
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
    const value = valueByKey(session, animal.id);
    const epg = value('epg');
    const known = typeof epg === 'number';
    const seen = known ? value('eggs') : null;
    const factor = known ? value('factor') : null;
    epgs.push(known ? epg : null);
    eggs.push(typeof seen === 'number' ? seen : null);
    factors.push(typeof factor === 'number' ? factor : null);
    if (known) counted += 1;
    else if (isTooMany(boundEpg(notebook, openDay, animal.id, value)?.is)) tooMany.push(animal);
  }
  return { animals, eggs, factors, epgs, counted, tooMany };
}

function isTooMany(is: string | undefined): boolean {
  return is === 'too many' || is === 'at least';
}
