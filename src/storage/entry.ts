import type { Cell, Json, Seen, Stamp } from '../../shared/cell.ts';
import type { Change, Path, Transaction } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isBranch, isStamp, keptChangeProblem } from '../notebook/sound-parts.ts';

/** An edit as it is kept: what its cells hold afterwards, and what had been seen by then. */
export interface Entry {
  readonly label: string;
  readonly source: string;
  readonly stamp: Stamp;
  readonly changes: readonly (readonly [path: Path, to: Cell<Json> | null])[];
  readonly seen: Seen;
}

export function writeEntry(transaction: Transaction, notebook: Notebook): string {
  const { label, source, stamp, changes } = transaction;
  const entry: Entry = {
    label,
    source,
    stamp,
    changes: changes.map(({ path, to }) => [path, to ?? null]),
    seen: notebook.seen,
  };
  return JSON.stringify(entry);
}

/** What could be read of an entry. */
export interface EntryRead {
  readonly changes: readonly Change[];
  readonly seen: Seen;
  /** Changes that are damaged, as they stand. */
  readonly damaged: readonly unknown[];
}

/** Reads an entry; null where it is damaged altogether. */
export function readEntry(text: unknown): EntryRead | null {
  if (typeof text !== 'string') return null;
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return null;
  }
  if (!isBranch(json) || !isBranch(json['seen']) || !Array.isArray(json['changes'])) return null;
  const isSeen = Object.entries(json['seen']).every(
    ([device, seen]) => Array.isArray(seen) && isStamp([...(seen as unknown[]), device]),
  );
  if (!isSeen) return null;
  const changes: Change[] = [];
  const damaged: unknown[] = [];
  for (const change of json['changes'] as unknown[]) {
    const read = readChange(change);
    if (read === null) damaged.push(change);
    else changes.push(read);
  }
  return { changes, seen: json['seen'] as Seen, damaged };
}

function readChange(change: unknown): Change | null {
  if (!Array.isArray(change) || change.length !== 2) return null;
  const [path, to] = change as unknown[];
  if (!Array.isArray(path) || !path.every((step) => typeof step === 'string')) return null;
  const at = path as unknown as Path;
  if (to === null) return { path: at, from: undefined, to: undefined };
  return keptChangeProblem(at, to) === null
    ? { path: at, from: undefined, to: to as Cell<Json> }
    : null;
}
