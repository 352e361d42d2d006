import { generateKeyBetween, generateNKeysBetween } from 'fractional-indexing';
import type { Json } from '../../shared/cell.ts';
import type { SetTo } from '../../shared/edit.ts';
import type { TableName } from '../../shared/notebook.ts';

/** Sets for the named facts of one record; `undefined` facts are left as they are. */
export function setsOf(table: TableName, id: string, facts: object): SetTo[] {
  return Object.entries(facts)
    .filter(([, value]) => value !== undefined)
    .map(([field, value]) => ({ path: [table, id, field] as const, value: value as Json }));
}

type Ordered = { readonly id: string; readonly order?: string };

/** An order key for a record put after all of these. */
export function orderAtEnd(list: readonly Ordered[]): string {
  return generateKeyBetween(list.at(-1)?.order ?? null, null);
}

/** `count` order keys after all of these. */
export function ordersAtEnd(list: readonly Ordered[], count: number): readonly string[] {
  return generateNKeysBetween(list.at(-1)?.order ?? null, null, count);
}

/**
 * An order key that puts `id` before `beforeId` (null: last) among these. Records that share a key,
 * written by two copies, are parted by a key between the neighbours that differ.
 */
export function orderBefore(list: readonly Ordered[], id: string, beforeId: string | null): string {
  const others = list.filter((record) => record.id !== id);
  const at = beforeId === null ? others.length : others.findIndex((r) => r.id === beforeId);
  const next = others[at]?.order ?? null;
  const lower = others
    .slice(0, Math.max(at, 0))
    .map((record) => record.order ?? '')
    .filter((order) => order !== '' && (next === null || order < next))
    .at(-1);
  return generateKeyBetween(lower ?? null, next);
}
