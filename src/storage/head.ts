import type { Seen } from '../../shared/cell.ts';
import type { Transaction } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { newest } from '../notebook/cell.ts';
import { covers } from '../notebook/merge-values.ts';
import { aboutOf, animalsOf, columnOf, daysOf } from '../notebook/read.ts';

/** A notebook's line in the list, kept beside it so that the list need not open every notebook. */
export interface Head {
  readonly id: string;
  readonly title: string;
  readonly place: string;
  /** Milliseconds since 1970. */
  readonly changedAt: number;
  readonly usedAt: number;
  readonly animals: number;
  readonly days: number;
  /** Cells of count columns that hold something. */
  readonly counts: number;
  /** Counts typed, changed or cleared since the notebook was last saved to a file. */
  readonly countsNotInFile: number;
  readonly editsNotInFile: number;
  /** What the last file held. */
  readonly inFile: Seen;
  /** When it was deleted; it is kept until it is purged. */
  readonly removedAt: number | null;
  /**
   * The device in the stamps of this notebook here. Each notebook kept here has a name of its own:
   * a notebook opened again from an older file must not take its newer self in another copy for seen.
   */
  readonly writer: string;
  /** The number of the last edit. */
  readonly last: number;
}

/** The head of a notebook newly kept. */
export function headOf(notebook: Notebook, writer: string, now: number): Head {
  const counts = countsNotSeen(notebook, {});
  return {
    ...names(notebook),
    id: notebook.id,
    changedAt: now,
    usedAt: now,
    counts,
    countsNotInFile: counts,
    editsNotInFile: 1,
    inFile: {},
    removedAt: null,
    writer,
    last: 0,
  };
}

/** How many counts of a notebook are newer than what had been seen. */
function countsNotSeen(notebook: Notebook, seen: Seen): number {
  const isCount = new Set(
    Object.keys(notebook.columns).filter((id) => columnOf(notebook, id)?.kind === 'count'),
  );
  let counts = 0;
  for (const { id } of daysOf(notebook))
    for (const row of Object.values(notebook.readings[id] ?? {}))
      for (const [column, cell] of Object.entries(row)) {
        const [value, stamp] = cell[0] ?? [null, null];
        if (isCount.has(column) && value !== null && stamp && !covers(seen, stamp)) counts += 1;
      }
  return counts;
}

/** The head once the notebook, as it was when it had seen this much, is in a file. */
export function headInFile(head: Head, notebook: Notebook, inFile: Seen): Head {
  const countsNotInFile = countsNotSeen(notebook, inFile);
  return { ...head, inFile, countsNotInFile, editsNotInFile: countsNotInFile > 0 ? 1 : 0 };
}

function names(notebook: Notebook): Pick<Head, 'title' | 'place' | 'animals' | 'days'> {
  const { title = '', place = '' } = aboutOf(notebook);
  const [animals, days] = [animalsOf(notebook).length, daysOf(notebook).length];
  return { title, place, animals, days };
}

/** The head after an edit; what it costs does not grow with the notebook while counts are typed. */
export function headAfter(
  head: Head,
  transaction: Transaction,
  notebook: Notebook,
  now: number,
): Head {
  let { counts, countsNotInFile } = head;
  for (const { path, from, to } of transaction.changes) {
    if (path[0] !== 'readings' || columnOf(notebook, path[3])?.kind !== 'count') continue;
    counts += Number(newest(to) !== undefined) - Number(newest(from) !== undefined);
    const stamp = from?.[0]?.[1];
    if (!stamp || covers(head.inFile, stamp)) countsNotInFile += 1;
  }
  const isWide = transaction.changes.some(({ path }) =>
    ['about', 'animals', 'days'].includes(path[0]),
  );
  return {
    ...head,
    ...(isWide ? names(notebook) : {}),
    counts,
    countsNotInFile,
    editsNotInFile: head.editsNotInFile + 1,
    changedAt: now,
    usedAt: now,
    last: head.last + 1,
  };
}

/** Whether this, read from a store, is a head. */
export function isHead(value: unknown): value is Head {
  if (typeof value !== 'object' || value === null) return false;
  const head = value as Partial<Record<keyof Head, unknown>>;
  return (
    typeof head.id === 'string' &&
    typeof head.title === 'string' &&
    typeof head.place === 'string' &&
    typeof head.writer === 'string' &&
    [head.changedAt, head.usedAt, head.last, head.counts, head.animals, head.days].every(
      Number.isFinite,
    ) &&
    typeof head.inFile === 'object' &&
    head.inFile !== null
  );
}
