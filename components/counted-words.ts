import type { Session } from '../src/session/session.ts';
import { presentAnimals } from '../src/notebook/present.ts';
import { herdLists, herdReady } from './herd-lists.ts';
import { say } from '../src/text/say.ts';

/** How many animals of the open day have an epg, of how many present. */
export interface Counted {
  readonly counted: number;
  readonly present: number;
}

/** Null while no day is open. Looks at all animals in slices. */
export async function countedOf(session: Session, signal: AbortSignal): Promise<Counted | null> {
  const { notebook, openDay } = session;
  if (openDay === null) return null;
  await herdReady(session, signal);
  const present = presentAnimals(notebook, openDay).length;
  return { counted: herdLists(session)?.counted ?? 0, present };
}

/** `19 counted of 38 present`; `no counts yet, 38 present`; `no animals yet`. */
export function countedWords({ counted, present }: Counted): string {
  if (present === 0) return say('no animals yet');
  if (counted === 0) return say('no counts yet, {present} present', { present });
  return say('{counted} counted of {present} present', { counted, present });
}
