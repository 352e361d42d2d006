import type { Cell, Fields, Json, Stamp } from '../../shared/cell.ts';
import type { Known } from '../../shared/notebook.ts';

/** The newest value of a cell; `undefined` where never written, cleared, or the field is absent. */
export function newest<T>(cell: Cell<T | null> | undefined): T | undefined {
  const value = cell?.[0]?.[0];
  return value === null ? undefined : value;
}

const knownOf = new WeakMap<object, Known<unknown>>();

/**
 * A record's facts by their newest values. The same fields give the same object, so that a view can
 * compare by identity; unwritten and cleared fields are absent.
 */
export function known<T>(id: string, fields: Fields<T>): Known<T> {
  const kept = knownOf.get(fields);
  if (kept) return kept;
  const facts: Record<string, unknown> = { id };
  for (const [field, cell] of Object.entries(fields)) {
    const value = newest(cell as Cell<unknown>);
    if (value !== undefined) facts[field] = value;
  }
  const read = facts as Known<T>;
  knownOf.set(fields, read);
  return read;
}

/** Orders stamps: negative when `a` is the older. */
export function compareStamps(a: Stamp, b: Stamp): number {
  return a[0] - b[0] || a[1] - b[1] || (a[2] < b[2] ? -1 : a[2] > b[2] ? 1 : 0);
}

/** Whether two plain-JSON values are the same in content. */
export function sameJson(a: Json | undefined, b: Json | undefined): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b)) {
    if (!Array.isArray(a) || !Array.isArray(b) || a.length !== b.length) return false;
    return a.every((item: Json, i) => sameJson(item, b[i] as Json));
  }
  const left = a as Record<string, Json>;
  const right = b as Record<string, Json>;
  const keys = Object.keys(left);
  if (keys.length !== Object.keys(right).length) return false;
  return keys.every((key) => Object.hasOwn(right, key) && sameJson(left[key], right[key]));
}
