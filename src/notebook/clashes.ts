import type { Cell, Json, Stamp } from '../../shared/cell.ts';
import type { Edit, Path } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { sameJson } from './cell.ts';
import { cellsInParts } from './merge-values.ts';
import { say } from '../text/say.ts';

/** A place for which two copies hold different values, newest first: a person chooses. */
export interface Clash {
  readonly path: Path;
  readonly values: readonly { readonly value: Json; readonly stamp: Stamp }[];
}

/** How the page is laid out is nothing to be asked about: there the newest value simply stands. */
const layoutTables: ReadonlySet<string> = new Set(['bench', 'yard']);
const layoutFields: ReadonlySet<string> = new Set(['order', 'width', 'hidden', 'folded']);

/** The different values of a cell, newest first. One value under two stamps is no clash. */
export function differentValues(cell: Cell<Json>): Cell<Json> {
  return cell.filter(
    ([value], i) => cell.findIndex(([earlier]) => meansSame(earlier, value)) === i,
  );
}

/** The values that stand beside the newest one of a cell and differ from it; none where all agree. */
export function otherValues<T extends Json>(cell: Cell<T> | undefined): readonly T[] {
  return cell === undefined || cell.length < 2
    ? []
    : differentValues(cell)
        .slice(1)
        .map(([value]) => value as T);
}

/** `5` and `05` are one count, typed twice; everything else is compared as it stands. */
function meansSame(a: Json, b: Json): boolean {
  if (sameJson(a, b)) return true;
  if (!isTypedNumber(a) || !isTypedNumber(b)) return false;
  return a.kind === b.kind && a.value === b.value && a.unit === b.unit;
}

function isTypedNumber(
  value: Json,
): value is { readonly kind: string; readonly value: number; readonly unit?: string } {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  const { kind, value: number } = value as { readonly [key: string]: Json };
  return (kind === 'number' || kind === 'over' || kind === 'under') && typeof number === 'number';
}

/** Every clash of a notebook. */
export function clashesOf(notebook: Notebook): readonly Clash[] {
  return [...clashesInParts(notebook)].flat();
}

/** The same in parts, many of them empty, for work that lets the page breathe. */
export function* clashesInParts(notebook: Notebook): Generator<readonly Clash[]> {
  for (const visitCells of cellsInParts(notebook)) {
    const clashes: Clash[] = [];
    visitCells((path, cell) => {
      if (cell.length < 2 || layoutTables.has(path[0])) return;
      if (path[0] !== 'readings' && layoutFields.has(path[2])) return;
      const values = differentValues(cell).map(([value, stamp]) => ({ value, stamp }));
      if (values.length > 1) clashes.push({ path, values });
    });
    yield clashes;
  }
}

/** The ordinary edit that settles a clash: the value chosen supersedes the others. */
export function choosing(clash: Clash, value: Json, place: string): Edit {
  return {
    label: say('the choice for {place}', { place }),
    source: 'merge',
    sets: [{ path: clash.path, value }],
  };
}
