import { generateKeyBetween, generateNKeysBetween } from 'fractional-indexing';
import type { Json } from '../../shared/cell.ts';
import type { SetTo } from '../../shared/edit.ts';
import type { TableName } from '../../shared/notebook.ts';

/** The id a template's column gets in every notebook, so that two notebooks of a season agree. */
export function columnId(key: string): string {
  return `c-${key}`;
}

/** Sets for the named facts of one record; `undefined` facts are left as they are. */
export function setsOf(table: TableName, id: string, facts: object): SetTo[] {
  return Object.entries(facts)
    .filter(([, value]) => value !== undefined)
    .map(([field, value]) => ({ path: [table, id, field] as const, value: value as Json }));
}

type Ordered = { readonly id: string; readonly order?: string };

/** An order key for a record put after all of these. */
export function orderAtEnd(list: readonly Ordered[]): string {
  return generateKeyBetween(lastKey(list), null);
}

/** `count` order keys after all of these. */
export function ordersAtEnd(list: readonly Ordered[], count: number): readonly string[] {
  return generateNKeysBetween(lastKey(list), null, count);
}

/**
 * An order key that puts `id` before `beforeId` (null: last) among these. Records that share a key,
 * written by two copies, are parted by a key between the neighbours that differ.
 */
export function orderBefore(list: readonly Ordered[], id: string, beforeId: string | null): string {
  const others = list.filter((record) => record.id !== id);
  const at = beforeId === null ? others.length : others.findIndex((r) => r.id === beforeId);
  const next = others.slice(Math.max(at, 0)).find(({ order }) => isKey(order))?.order ?? null;
  const before = others.slice(0, Math.max(at, 0));
  const lower = lastKey(before.filter(({ order = '' }) => next === null || order < next));
  return generateKeyBetween(lower, next);
}

/** The last key to build on: a key that another program wrote wrongly is passed over. */
function lastKey(list: readonly Ordered[]): string | null {
  return list.findLast(({ order }) => isKey(order))?.order ?? null;
}

function isKey(order: string | undefined): order is string {
  if (order === undefined || order === '') return false;
  try {
    generateKeyBetween(order, null);
    return true;
  } catch {
    return false;
  }
}
