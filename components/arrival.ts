import type { Notebook } from '../shared/notebook.ts';
import { dayOf, daysOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';

/** The date of the notebook's first sampling day. */
export function firstDate(notebook: Notebook): string | undefined {
  return daysOf(notebook)[0]?.date;
}

/**
 * Since when an animal added now is taken to be here: the open day, if there are days before it, so
 * that their number of animals stays what it was; else always ('').
 */
export function usualArrival(session: Session): string {
  const { notebook, openDay } = session;
  if (openDay === null || daysOf(notebook)[0]?.id === openDay) return '';
  return dayOf(notebook, openDay)?.date ?? '';
}
