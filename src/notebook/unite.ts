import type { Cell, Json, Stamp } from '../../shared/cell.ts';
import type { Change, Path } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { canonicalTag } from '../text/tag.ts';
import { cellAt } from './apply-edit.ts';
import { newest } from './cell.ts';
import { differentValues } from './clashes.ts';
import { newestFirst } from './merge-values.ts';
import { animalOf, animalsOf, byText } from './read.ts';

/** Two records of one animal, made by two copies that did not know of each other. */
export interface United {
  /** The lesser id: the record that goes on. */
  readonly kept: string;
  /** The record that is now marked as removed and united into the other. */
  readonly gone: string;
  readonly tag: string;
}

/** The key by which two tags are one animal's; a tag that has none stands for itself. */
export function tagKey(tag: string): string {
  const read = canonicalTag(tag);
  return isFault(read) ? tag : read.key;
}

function isLive(copy: Notebook, id: string): boolean {
  const animal = animalOf(copy, id);
  return animal?.tag !== undefined && animal.removed !== true;
}

/**
 * The animals of a merged notebook that are one by their tags. Two that already stood side by side
 * in one of the copies, or that a person keeps apart, are two.
 */
export function sameAnimals(
  merged: Notebook,
  copies: readonly Notebook[],
): readonly (United & { readonly goneTag: string })[] {
  const byKey = new Map<string, string[]>();
  for (const { id, tag } of animalsOf(merged)) {
    const key = tagKey(tag);
    byKey.set(key, [...(byKey.get(key) ?? []), id]);
  }
  const pairs: (United & { readonly goneTag: string })[] = [];
  for (const group of byKey.values()) {
    const kept: string[] = [];
    for (const id of group.sort(byText)) {
      const into = kept.find((other) => mayUnite(merged, copies, other, id));
      if (into === undefined) kept.push(id);
      else
        pairs.push({
          kept: into,
          gone: id,
          tag: animalOf(merged, into)?.tag ?? into,
          goneTag: animalOf(merged, id)?.tag ?? id,
        });
    }
  }
  return pairs;
}

function mayUnite(merged: Notebook, copies: readonly Notebook[], a: string, b: string): boolean {
  const isKeptApart = [a, b].every((id) => animalOf(merged, id)?.keptApart === true);
  return !isKeptApart && !copies.some((copy) => isLive(copy, a) && isLive(copy, b));
}

/**
 * Moves what stands under `gone` to `kept`: readings, decisions, groups, treatments, cups, and facts
 * that `kept` lacks. Where both hold something different, both values stay, as a clash. Everything
 * moved bears a new stamp, so that a third copy, merged later, does not take it for superseded.
 */
export function uniting(merged: Notebook, { kept, gone }: United, stamp: Stamp): Change[] {
  const changes: Change[] = [];
  const put = (path: Path, to: Cell<Json>): void => {
    changes.push({ path, from: cellAt(merged, path), to });
  };
  const move = (from: Path, to: Path): void => {
    const moving = cellAt(merged, from)?.filter(([value]) => value !== null) ?? [];
    if (moving.length === 0) return;
    const there = cellAt(merged, to)?.filter(([value]) => value !== null) ?? [];
    put(to, restamped([...there, ...moving], stamp));
    put(from, [[null, stamp]]);
  };
  for (const day of Object.keys(merged.readings))
    for (const column of Object.keys(merged.readings[day]?.[gone] ?? {}))
      move(['readings', day, gone, column], ['readings', day, kept, column]);
  for (const table of ['decisions', 'bench', 'yard'] as const)
    for (const day of Object.keys(merged[table]))
      if (Object.hasOwn(merged[table][day] ?? {}, gone))
        move([table, day, gone], [table, day, kept]);
  for (const date of Object.keys(merged.groups[gone] ?? {}))
    move(['groups', gone, date], ['groups', kept, date]);
  for (const [path, value] of mentions(merged, kept, gone)) put(path, [[value, stamp]]);
  for (const [path, cell] of facts(merged, kept, gone)) put(path, restamped(cell, stamp));
  put(['animals', gone, 'removed'], [[true, stamp]]);
  put(['animals', gone, 'unitedInto'], [[kept, stamp]]);
  return changes;
}

/** The different values, newest first, each under a stamp of its own that no copy has seen. */
function restamped(cell: Cell<Json>, [ms, counter, device]: Stamp): Cell<Json> {
  const values = differentValues([...cell].sort(newestFirst));
  return values.map(([value], i) => [value, [ms, counter + values.length - 1 - i, device]]);
}

function mentions(merged: Notebook, kept: string, gone: string): [Path, Json][] {
  const found: [Path, Json][] = [];
  for (const [id, fields] of Object.entries(merged.treatments))
    if (newest(fields.animal) === gone) found.push([['treatments', id, 'animal'], kept]);
  for (const [id, fields] of Object.entries(merged.cups)) {
    const ids = newest(fields.animalIds);
    if (!ids?.includes(gone)) continue;
    const renamed = new Set(ids.map((animal) => (animal === gone ? kept : animal)));
    found.push([['cups', id, 'animalIds'], [...renamed]]);
  }
  return found;
}

/** Facts that stay each record's own. */
const ownFacts: ReadonlySet<string> = new Set([
  'tag',
  'order',
  'removed',
  'keptApart',
  'unitedInto',
]);

function facts(merged: Notebook, kept: string, gone: string): [Path, Cell<Json>][] {
  return Object.entries(merged.animals[gone] ?? {}).flatMap(
    ([field, cell]): [Path, Cell<Json>][] => {
      if (ownFacts.has(field)) return [];
      const path: Path = ['animals', kept, field];
      const there = (cellAt(merged, path) ?? []).filter(([value]) => value !== null);
      const coming = (cell as Cell<Json>).filter(([value]) => value !== null);
      const both = differentValues([...there, ...coming]);
      return both.length > differentValues(there).length ? [[path, both]] : [];
    },
  );
}
