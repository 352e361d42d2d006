import type { Stamp } from '../../shared/cell.ts';
import type { Change, Path } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { cellAt } from './apply-edit.ts';
import { covers, eachCell, type MergedValues } from './merge-values.ts';

const revivable = ['animals', 'cups', 'days', 'columns'] as const;

/** A record that one copy removed while the other typed something for it: back, for review. */
export interface Revived {
  readonly table: (typeof revivable)[number];
  readonly id: string;
}

/** Ids per table that one copy typed something for, unknown to the other. */
type Touched = Readonly<Record<(typeof revivable)[number], Set<string>>>;

/**
 * Brings back what one copy removed without knowing what the other one typed for it. Nobody who
 * removed an animal meant to remove a count not yet seen.
 */
export function revive(
  mine: Notebook,
  theirs: Notebook,
  merged: MergedValues,
  stamp: Stamp,
): { readonly changes: readonly Change[]; readonly revived: readonly Revived[] } {
  const changes: Change[] = [];
  const revived: Revived[] = [];
  const removedByMe = removedOnlyBy(mine, theirs, merged.notebook);
  const removedByThem = removedOnlyBy(theirs, mine, merged.notebook);
  for (const [removed, typist, remover] of [
    [removedByMe, theirs, mine],
    [removedByThem, mine, theirs],
  ] as const) {
    if (removed.length === 0) continue;
    const touched = typedUnknownTo(remover, typist, merged.notebook);
    for (const { table, id } of removed) {
      if (!touched[table].has(id)) continue;
      const path = [table, id, 'removed'] as const;
      changes.push({ path, from: cellAt(merged.notebook, path), to: [[false, stamp]] });
      revived.push({ table, id });
    }
  }
  return { changes, revived };
}

function isRemoved(notebook: Notebook, path: Path): boolean {
  return cellAt(notebook, path)?.[0]?.[0] === true;
}

function removedOnlyBy(one: Notebook, other: Notebook, merged: Notebook): Revived[] {
  return revivable.flatMap((table) =>
    Object.keys(one[table])
      .filter((id) => {
        const path = [table, id, 'removed'] as const;
        return isRemoved(one, path) && !isRemoved(other, path) && isRemoved(merged, path);
      })
      .map((id) => ({ table, id })),
  );
}

function typedUnknownTo(remover: Notebook, typist: Notebook, merged: Notebook): Touched {
  const touched: Touched = {
    animals: new Set(),
    cups: new Set(),
    days: new Set(),
    columns: new Set(),
  };
  eachCell(
    typist,
    (path, cell) => {
      if (!cell.some(([value, stamp]) => value !== null && !covers(remover.seen, stamp))) return;
      const [, day, row, column] = path;
      touched.days.add(day);
      touched.animals.add(row);
      touched.cups.add(row);
      if (column !== undefined) touched.columns.add(column);
    },
    'readings',
  );
  for (const id of Object.keys(typist.treatments)) {
    const cell = typist.treatments[id]?.animal;
    const isNew = cell?.some(([, stamp]) => !covers(remover.seen, stamp)) ?? false;
    const animal = cellAt(merged, ['treatments', id, 'animal'])?.[0]?.[0];
    if (isNew && typeof animal === 'string') touched.animals.add(animal);
  }
  return touched;
}
