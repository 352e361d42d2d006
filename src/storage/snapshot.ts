import type { Seen } from '../../shared/cell.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isBranch } from '../notebook/sound-parts.ts';
import { dayKey, snapshotKey, tableKey, under, type Key } from './keys.ts';

/** What stands under `snapshot`: what the pieces hold. */
export interface SnapshotMark {
  readonly version: number;
  readonly language: number;
  readonly seen: Seen;
  /** The number of the last edit the pieces hold; later ones are in the journal. */
  readonly upTo: number;
}

/** Which tables and days a snapshot writes anew. */
export interface Touched {
  readonly tables: ReadonlySet<string>;
  readonly days: ReadonlySet<string>;
}

/** A snapshot ready to be written in one transaction. */
export interface Pieces {
  readonly replaced: readonly IDBKeyRange[];
  readonly written: readonly (readonly [Key, string])[];
}

/** Records or rows in one piece: some 10 ms of work at a time, also on a phone. */
export const mostInPiece = 1000;

const plainFields = ['format', 'version', 'language', 'id', 'seen', 'readings'];

/** All tables and days, tables of a later program included. */
export function everything(notebook: Notebook): Touched {
  const tables = Object.keys(notebook).filter((name) => !plainFields.includes(name));
  return { tables: new Set(tables), days: new Set(Object.keys(notebook.readings)) };
}

/**
 * The pieces of a notebook as it is at the moment of the call: records and rows are values that no
 * edit changes, so all are taken hold of at once, and written out bit by bit, with pauses between.
 */
export function piecesOf(
  notebook: Notebook,
  touched: Touched,
  upTo: number,
  pause: () => Promise<void>,
): Promise<Pieces> {
  const { id, version, language, seen } = notebook;
  const mark: SnapshotMark = { version, language, seen, upTo };
  const parts: (readonly [Key, unknown])[] = [[snapshotKey(id), mark]];
  const replaced: IDBKeyRange[] = [];
  const named = notebook as unknown as Readonly<Record<string, unknown>>;
  for (const name of touched.tables) {
    replaced.push(under('table', id, name));
    parts.push(...inParts(named[name], (part) => tableKey(id, name, part)));
  }
  for (const day of touched.days) {
    replaced.push(under('day', id, day));
    parts.push(...inParts(notebook.readings[day], (part) => dayKey(id, day, part)));
  }
  return asTexts(parts, replaced, pause);
}

/** Lists of names and what they hold; what is no table (a later program's) as one thing. */
function inParts(table: unknown, keyOf: (part: number) => Key): (readonly [Key, unknown])[] {
  if (!isBranch(table)) return table === undefined ? [] : [[keyOf(0), { whole: table }]];
  const records = Object.entries(table);
  const parts: (readonly [Key, unknown])[] = [];
  for (let at = 0; at < records.length; at += mostInPiece)
    parts.push([keyOf(at / mostInPiece), records.slice(at, at + mostInPiece)]);
  return parts;
}

async function asTexts(
  parts: readonly (readonly [Key, unknown])[],
  replaced: readonly IDBKeyRange[],
  pause: () => Promise<void>,
): Promise<Pieces> {
  const written: (readonly [Key, string])[] = [];
  let sincePause = 0;
  for (const [key, part] of parts) {
    const text = JSON.stringify(part);
    written.push([key, text]);
    sincePause += text.length;
    if (sincePause < 300_000) continue;
    sincePause = 0;
    await pause();
  }
  return { replaced, written };
}

/** Puts pieces into a store, in the transaction that is open on it. */
export function putPieces(store: IDBObjectStore, { replaced, written }: Pieces): void {
  for (const range of replaced) store.delete(range);
  for (const [key, text] of written) store.put(text, key);
}

/** What a piece holds; null where it is damaged. */
export function readPiece(
  text: unknown,
):
  | { readonly records: readonly (readonly [string, unknown])[] }
  | { readonly whole: unknown }
  | null {
  if (typeof text !== 'string') return null;
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return null;
  }
  if (isBranch(json) && Object.hasOwn(json, 'whole')) return { whole: json['whole'] };
  const isList =
    Array.isArray(json) &&
    json.every((pair) => Array.isArray(pair) && pair.length === 2 && typeof pair[0] === 'string');
  return isList ? { records: json as [string, unknown][] } : null;
}

/** The mark of a snapshot; null where it is damaged. */
export function readMark(text: unknown): SnapshotMark | null {
  if (typeof text !== 'string') return null;
  try {
    const json = JSON.parse(text) as unknown;
    if (!isBranch(json) || !isBranch(json['seen'])) return null;
    const isWhole = [json['version'], json['language'], json['upTo']].every(Number.isInteger);
    return isWhole ? (json as unknown as SnapshotMark) : null;
  } catch {
    return null;
  }
}
