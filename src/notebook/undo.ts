import type { Stamp } from '../../shared/cell.ts';
import type { Change, Path, Transaction } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { cellAt } from './apply-edit.ts';
import { compareStamps } from './cell.ts';

/**
 * The changes that take a transaction back: each place gets its former values under a new stamp, but
 * only where it still bears the stamp of the transaction. Places written since by anyone else are
 * left alone and named in `passedOver`.
 */
export function undoing(
  notebook: Notebook,
  transaction: Transaction,
  stamp: Stamp,
): { readonly changes: readonly Change[]; readonly passedOver: readonly Path[] } {
  const changes: Change[] = [];
  const passedOver: Path[] = [];
  for (const { path, from } of transaction.changes) {
    const now = cellAt(notebook, path);
    const newestStamp = now?.[0]?.[1];
    if (!now || !newestStamp || compareStamps(newestStamp, transaction.stamp) !== 0) {
      passedOver.push(path);
      continue;
    }
    const to = from ? from.map(([value]) => [value, stamp] as const) : [[null, stamp] as const];
    changes.push({ path, from: now, to });
  }
  return { changes, passedOver };
}
