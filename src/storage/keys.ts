/**
 * What is kept under which key. A notebook is kept in pieces, so that a typed count writes one small
 * entry and a snapshot rewrites no more than what changed:
 *
 * - `head`: its line in the list of notebooks, see `Head`
 * - `snapshot`: version, what had been seen, and the number of the last edit that the pieces hold
 * - `table`: up to a thousand records of one table beside the readings, as JSON
 * - `day`: readings of up to a thousand rows of one sampling day, as JSON
 * - `edit`: one edit made since, as JSON, by number
 * - `aside`: something damaged that could not be read, for download
 *
 * Beside them stands `template`: a template of the person's own, of no notebook.
 */
export type Kind = 'head' | 'snapshot' | 'table' | 'day' | 'edit' | 'aside' | 'template';

/** The kinds that are a notebook's. */
export const kinds: readonly Kind[] = ['head', 'snapshot', 'table', 'day', 'edit', 'aside'];

export type Key = [kind: Kind, ...rest: (string | number)[]];

export const headKey = (id: string): Key => ['head', id];
export const snapshotKey = (id: string): Key => ['snapshot', id];
export const tableKey = (id: string, table: string, part: number): Key => [
  'table',
  id,
  table,
  part,
];
export const dayKey = (id: string, day: string, part: number): Key => ['day', id, day, part];
export const editKey = (id: string, number: number): Key => ['edit', id, number];
export const asideKey = (id: string, number: number): Key => ['aside', id, number];

/** All keys that begin like this; an empty list sorts after every text and number. */
export function under(...start: Key): IDBKeyRange {
  return IDBKeyRange.bound(start, [...start, []]);
}

/** The edits of a notebook up to a number. */
export function editsUpTo(id: string, number: number): IDBKeyRange {
  return IDBKeyRange.bound(['edit', id], editKey(id, number));
}
