import type { Stamp } from '../../shared/cell.ts';
import type { Change, Path, Transaction } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { cellAt } from './apply-edit.ts';

/**
 * Which writing a restored value goes back to. Undo writes a former value under a new stamp; without
 * this the step before it would look written over and could not be undone in its turn.
 */
export type Origins = ReadonlyMap<string, string>;

/** What undoing a step comes to. */
export interface Undoing {
  readonly changes: readonly Change[];
  /** Places written since by something else: left alone, and named to the person. */
  readonly passedOver: readonly Path[];
  readonly origins: Origins;
}

/**
 * The changes that take a transaction back: each place gets its former values under a new stamp, but
 * only where what stands there still goes back to that transaction.
 */
export function undoing(
  notebook: Notebook,
  transaction: Transaction,
  stamp: Stamp,
  origins: Origins = new Map(),
): Undoing {
  const changes: Change[] = [];
  const passedOver: Path[] = [];
  const grown = new Map(origins);
  for (const { path, from } of transaction.changes) {
    const now = cellAt(notebook, path);
    const standing = originOf(origins, path, now?.[0]?.[1]);
    if (!now || standing !== originOf(origins, path, transaction.stamp)) {
      passedOver.push(path);
      continue;
    }
    const to = from ? from.map(([value]) => [value, stamp] as const) : [[null, stamp] as const];
    changes.push({ path, from: now, to });
    grown.set(originKey(path, stamp), originOf(origins, path, from?.[0]?.[1]));
  }
  return { changes, passedOver, origins: grown };
}

function originOf(origins: Origins, path: Path, stamp: Stamp | undefined): string {
  if (!stamp) return 'never written';
  const key = originKey(path, stamp);
  return origins.get(key) ?? key;
}

function originKey(path: Path, stamp: Stamp): string {
  return `${path.join('\n')}\n${stamp.join(' ')}`;
}
