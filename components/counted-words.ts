import type { Session } from '../src/session/session.ts';
import { columnByKey } from '../src/notebook/read.ts';
import { presentAnimals } from '../src/notebook/present.ts';

/** How many animals of the open day have an epg, of how many present. */
export interface Counted {
  readonly counted: number;
  readonly present: number;
}

/** Null while no day is open. */
export function countedOf(session: Session): Counted | null {
  const { notebook, openDay, engine } = session;
  if (openDay === null) return null;
  const present = presentAnimals(notebook, openDay);
  const epg = columnByKey(notebook, 'epg');
  const counted = epg
    ? present.filter(({ id }) => typeof engine.value(id, epg.id) === 'number').length
    : 0;
  return { counted, present: present.length };
}

/** `19 counted of 38 present`; `no counts yet, 38 present`; `no animals yet`. */
export function countedWords({ counted, present }: Counted): string {
  if (present === 0) return 'no animals yet';
  if (counted === 0) return `no counts yet, ${present} present`;
  return `${counted} counted of ${present} present`;
}
