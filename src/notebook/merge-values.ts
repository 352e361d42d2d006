import type { Cell, Json, Seen, Stamp } from '../../shared/cell.ts';
import type { Change, Path } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { writeCells } from './apply-edit.ts';
import { compareStamps, sameJson } from './cell.ts';

type Entry = Cell<Json>[number];
type Branch = Readonly<Record<string, unknown>>;

/** Whether a copy that has seen this much has taken in what bears this stamp. */
export function covers(seen: Seen, [ms, counter, device]: Stamp): boolean {
  const greatest = Object.hasOwn(seen, device) ? seen[device] : undefined;
  if (!greatest) return false;
  return ms < greatest[0] || (ms === greatest[0] && counter <= greatest[1]);
}

/** What either copy has seen. */
export function mergeSeen(mine: Seen, theirs: Seen): Seen {
  const merged = new Map(Object.entries(mine));
  for (const [device, [ms, counter]] of Object.entries(theirs))
    if (!covers(mine, [ms, counter, device])) merged.set(device, [ms, counter]);
  return Object.fromEntries(merged);
}

/** Newest first; values that share a stamp in the order of their text, the same on every device. */
export function newestFirst(a: Entry, b: Entry): number {
  if (compareStamps(a[1], b[1]) !== 0) return compareStamps(b[1], a[1]);
  const [left, right] = [JSON.stringify(a[0]), JSON.stringify(b[0])];
  return left < right ? -1 : left > right ? 1 : 0;
}

function holds(cell: Cell<Json>, [value, stamp]: Entry): boolean {
  return cell.some(([v, s]) => compareStamps(s, stamp) === 0 && sameJson(v, value));
}

/**
 * One cell of two copies: a value stays if both hold it, or if the other copy has not seen it yet; a
 * value that the other copy has seen and holds no more was superseded there. A cell that one copy
 * lacks was never written there, since writing leaves a cell for ever; so a cell is never emptied
 * either, also where a damaged copy contradicts itself. Gives back `mine` itself when nothing changes.
 */
export function mergeCell(
  mine: Cell<Json>,
  mineSeen: Seen,
  theirs: Cell<Json>,
  theirsSeen: Seen,
): Cell<Json> {
  if (mine === theirs || isSameSingle(mine, theirs)) return mine;
  if (isMadeUp(mine) !== isMadeUp(theirs)) return isMadeUp(mine) ? theirs : mine;
  const kept = mine.filter((entry) => holds(theirs, entry) || !covers(theirsSeen, entry[1]));
  const taken = theirs.filter((entry) => !holds(mine, entry) && !covers(mineSeen, entry[1]));
  const merged = (kept.length + taken.length > 0 ? [...kept, ...taken] : [...mine, ...theirs]).sort(
    newestFirst,
  );
  const isSame = merged.length === mine.length && merged.every((entry, i) => entry === mine[i]);
  return isSame ? mine : merged;
}

/** The ordinary case, in which there is nothing to merge. */
function isSameSingle(mine: Cell<Json>, theirs: Cell<Json>): boolean {
  const [a, b] = [mine[0], theirs[0]];
  return mine.length === 1 && theirs.length === 1 && !!a && !!b && holds([a], b);
}

/** The stamp of a value that stands in for one lost to damage: any true value takes its place. */
export const madeUp: Stamp = [0, 0, 'made up'];

function isMadeUp(cell: Cell<Json>): boolean {
  return cell.every(([, stamp]) => compareStamps(stamp, madeUp) === 0);
}

/** What stands in `Notebook` beside the tables of cells. */
const plainFields: ReadonlySet<string> = new Set(['format', 'version', 'language', 'id', 'seen']);

/** Whether this is a cell, and not a branch or something a later version added. */
function isCell(value: unknown): value is Cell<Json> {
  return (
    Array.isArray(value) &&
    value.length > 0 &&
    value.every((entry) => Array.isArray(entry) && Array.isArray(entry[1]))
  );
}

function isBranch(value: unknown): value is Branch {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Calls `visit` for every cell of a notebook, with its path. */
export function eachCell(
  notebook: Notebook,
  visit: (path: Path, cell: Cell<Json>) => void,
  under: keyof Notebook | null = null,
): void {
  for (const [name, table] of Object.entries(notebook))
    if (!plainFields.has(name) && (under === null || under === name))
      eachCellOf(table, [name], visit);
}

function eachCellOf(
  at: unknown,
  path: readonly string[],
  visit: (path: Path, cell: Cell<Json>) => void,
): void {
  if (isCell(at)) visit(path as unknown as Path, at);
  else if (isBranch(at))
    for (const [name, next] of Object.entries(at)) eachCellOf(next, [...path, name], visit);
}

/**
 * The same in parts, for work that lets the page breathe: each part visits the cells of one record, or of
 * the readings of one day.
 */
export function* cellsInParts(
  notebook: Notebook,
): Generator<(visit: (path: Path, cell: Cell<Json>) => void) => void> {
  for (const [name, table] of Object.entries(notebook) as readonly (readonly [string, unknown])[]) {
    if (plainFields.has(name)) continue;
    if (!isBranch(table) || isCell(table)) yield (visit) => eachCellOf(table, [name], visit);
    else
      for (const [id, record] of Object.entries(table))
        yield (visit) => eachCellOf(record, [name, id], visit);
  }
}

/** Two copies made one, as values: what this copy has to change, and what it then holds. */
export interface MergedValues {
  readonly notebook: Notebook;
  /** From what `mine` holds to what both hold together. */
  readonly changes: readonly Change[];
  readonly seen: Seen;
}

/**
 * Makes one notebook of two copies, cell by cell. The order in which copies are merged, and how
 * often, makes no difference: the rule is a multi-value register under a version vector (Shapiro et
 * al. 2011, "A comprehensive study of convergent and commutative replicated data types", INRIA
 * RR-7506, section 3.2.2), with one vector for the whole notebook (Bieniusa et al. 2012, "An
 * optimized conflict-free replicated set", INRIA RR-8083). Device clocks may be wrong by years.
 */
export function mergeValues(mine: Notebook, theirs: Notebook): MergedValues {
  const changes: Change[] = [];
  const compare = (here: unknown, there: unknown, path: readonly string[]): void => {
    if (isCell(there)) {
      if (here === undefined) changes.push(change(path, undefined, there));
      else if (isCell(here)) {
        const to = mergeCell(here, mine.seen, there, theirs.seen);
        if (to !== here) changes.push(change(path, here, to));
      }
    } else if (isBranch(there) && (here === undefined || isBranch(here))) {
      for (const [name, next] of Object.entries(there)) {
        const own = here !== undefined && Object.hasOwn(here, name) ? here[name] : undefined;
        compare(own, next, [...path, name]);
      }
    }
  };
  for (const [name, table] of Object.entries(theirs)) {
    if (plainFields.has(name)) continue;
    compare(Object.hasOwn(mine, name) ? (mine as unknown as Branch)[name] : undefined, table, [
      name,
    ]);
  }
  const seen = mergeSeen(mine.seen, theirs.seen);
  return { notebook: { ...writeCells(mine, changes, []), seen }, changes, seen };
}

function change(path: readonly string[], from: Cell<Json> | undefined, to: Cell<Json>): Change {
  return { path: path as unknown as Path, from, to };
}
