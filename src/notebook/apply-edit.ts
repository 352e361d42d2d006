import type { Cell, Json, Stamp } from '../../shared/cell.ts';
import type { Change, Edit, Path, SetTo } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { sameJson } from './cell.ts';

type Branch = Readonly<Record<string, unknown>>;

/** The cell at a path; `undefined` when never written. */
export function cellAt(notebook: Notebook, path: Path): Cell<Json> | undefined {
  let at: unknown = notebook;
  for (const step of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, step)) return undefined;
    at = (at as Branch)[step];
  }
  return at as Cell<Json> | undefined;
}

/**
 * Applies an edit as one stamped step: every set that alters something supersedes what its cell
 * holds. A set of the value already there is left out, and an edit of nothing but such sets gives
 * back the very same notebook and no changes.
 */
export function applyEdit(
  notebook: Notebook,
  edit: Edit,
  stamp: Stamp,
  keeping: Keeping = 'every branch',
): { readonly notebook: Notebook; readonly changes: readonly Change[] } {
  const changes: Change[] = [];
  for (const set of lastSets(edit.sets)) {
    const from = cellAt(notebook, set.path);
    const only = from?.length === 1 ? from[0]?.[0] : undefined;
    const isSame =
      from === undefined ? set.value === null : from.length === 1 && sameJson(only, set.value);
    if (isSame) continue;
    changes.push({ path: set.path, from, to: [[set.value, stamp]] });
  }
  return { notebook: writeCells(notebook, changes, [stamp], keeping), changes };
}

/** Of several sets of one place in one edit, the last one counts. */
function lastSets(sets: readonly SetTo[]): Iterable<SetTo> {
  if (sets.length < 2) return sets;
  const byPath = new Map<string, SetTo>();
  for (const set of sets) byPath.set(set.path.join('\n'), set);
  return byPath.values();
}

/**
 * Whether the former notebook stays whole (`every branch`), or its holder gives it up, so that a day
 * of 10,000 animals need not be copied for one count (4 ms): rows are then replaced inside the day.
 */
export type Keeping = 'every branch' | 'days in place';

/**
 * Writes the `to` cells of changes into a new notebook, sharing every branch that is not touched, and
 * takes the stamps into `seen`. No changes: the very same notebook.
 */
export function writeCells(
  notebook: Notebook,
  changes: readonly Change[],
  stamps: readonly Stamp[],
  keeping: Keeping = 'every branch',
): Notebook {
  if (changes.length === 0) return notebook;
  const fresh = new Set<object>();
  if (keeping === 'days in place')
    for (const day of Object.values(notebook.readings)) fresh.add(day);
  const root: Record<string, unknown> = { ...notebook };
  fresh.add(root);
  for (const { path, to } of changes) {
    let at = root;
    for (const step of path.slice(0, -1)) at = ownBranch(at, step, fresh);
    const last = path[path.length - 1] as string;
    if (to === undefined) delete at[last];
    else put(at, last, to);
  }
  const seen: Record<string, readonly [number, number]> = { ...notebook.seen };
  for (const [ms, counter, device] of stamps) {
    const before = seen[device];
    if (!before || before[0] < ms || (before[0] === ms && before[1] < counter))
      put(seen, device, [ms, counter]);
  }
  root['seen'] = seen;
  return root as unknown as Notebook;
}

function ownBranch(
  parent: Record<string, unknown>,
  step: string,
  fresh: Set<object>,
): Record<string, unknown> {
  const child = Object.hasOwn(parent, step) ? parent[step] : undefined;
  if (typeof child === 'object' && child !== null && fresh.has(child))
    return child as Record<string, unknown>;
  const copy = { ...(child as Branch | undefined) };
  fresh.add(copy);
  put(parent, step, copy);
  return copy;
}

/** Assignment that is safe for a name like `__proto__`. */
function put(target: object, name: string, value: unknown): void {
  Object.defineProperty(target, name, {
    value,
    enumerable: true,
    writable: true,
    configurable: true,
  });
}
