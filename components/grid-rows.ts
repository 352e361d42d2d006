import type { Animal, Notebook } from '../shared/notebook.ts';
import type { ColumnId, DayId, RowId } from '../shared/ref.ts';
import { isFault, type Value } from '../shared/value.ts';
import { newest } from '../src/notebook/cell.ts';
import type { Outcome, OutcomeKind } from '../src/notebook/outcome.ts';
import { boundEpg } from './bound-epg.ts';
import { statusSeen } from './cup-state.ts';
import { groupOn, isPresent } from '../src/notebook/present.ts';
import { animalsOf, byText, columnByKey, dayOf, readingOf } from '../src/notebook/read.ts';

/** One animal's row. */
export interface GridRow {
  readonly id: RowId;
  readonly tag: string;
  readonly name: string;
  readonly group: string;
  readonly class: string;
  readonly isPresent: boolean;
}

/** `order` is the notebook's own order, `bench` that of the cups; else a column of the open day. */
export interface Sort {
  readonly by: 'order' | 'bench' | 'tag' | 'group' | { readonly column: ColumnId };
  readonly isDescending: boolean;
}

/** Empty means all. A view alone: it moves no data and no formula. */
export interface Filter {
  readonly everyAnimal: boolean;
  readonly group: string;
  readonly class: string;
  readonly status: string;
  readonly outcome: '' | OutcomeKind;
  /** Only animals at this epg or over it, too many to count among them; null for all. */
  readonly epgFrom: number | null;
}

export const plainSort: Sort = { by: 'order', isDescending: false };
export const noFilter: Filter = {
  everyAnimal: false,
  group: '',
  class: '',
  status: '',
  outcome: '',
  epgFrom: null,
};

/** What sorting and filtering look up of the open day. */
export interface RowFigures {
  readonly value: (row: RowId, column: ColumnId) => Value;
  readonly outcome: (row: RowId) => Outcome;
}

/** Every animal of the notebook as a row, with its group on the open day, in the notebook's order. */
export function allRows(notebook: Notebook, day: DayId | null): readonly GridRow[] {
  const date = (day && dayOf(notebook, day)?.date) ?? '9999-12-31';
  return animalsOf(notebook).map((animal: Animal) => ({
    id: animal.id,
    tag: animal.tag,
    name: animal.name ?? '',
    group: groupOn(notebook, animal.id, date) ?? '',
    class: animal.class ?? '',
    isPresent: day === null || isPresent(notebook, day, animal),
  }));
}

/** The rows that pass the filter. */
export function filteredRows(
  rows: readonly GridRow[],
  filter: Filter,
  notebook: Notebook,
  day: DayId | null,
  figures: RowFigures,
): readonly GridRow[] {
  const epg = columnByKey(notebook, 'epg');
  return rows.filter((row) => {
    if (!filter.everyAnimal && !row.isPresent) return false;
    if (filter.group !== '' && row.group !== filter.group) return false;
    if (filter.class !== '' && row.class !== filter.class) return false;
    if (day === null) return true;
    if (filter.status !== '') {
      if (statusSeen(notebook, day, row.id) !== filter.status) return false;
    }
    if (filter.outcome !== '' && figures.outcome(row.id).kind !== filter.outcome) return false;
    if (filter.epgFrom !== null) {
      const value = epg ? figures.value(row.id, epg.id) : null;
      const known = typeof value === 'number' ? value : boundKey(notebook, day, row.id, figures);
      return typeof known === 'number' && known >= filter.epgFrom * (1 - 1e-9);
    }
    return true;
  });
}

/** Rows in the order wished; ties keep the notebook's order; what is missing comes last either way. */
export function sortedRows(
  rows: readonly GridRow[],
  sort: Sort,
  notebook: Notebook,
  day: DayId | null,
  figures: RowFigures,
): readonly GridRow[] {
  if (sort.by === 'order') return sort.isDescending ? [...rows].reverse() : rows;
  const key = sortKey(sort.by, notebook, day, figures);
  const keyed = rows.map((row, at) => ({ row, at, key: key(row) }));
  const sign = sort.isDescending ? -1 : 1;
  keyed.sort((a, b) => {
    if (a.key === null || b.key === null)
      return Number(a.key === null) - Number(b.key === null) || a.at - b.at;
    return sign * compare(a.key, b.key) || a.at - b.at;
  });
  return keyed.map(({ row }) => row);
}

type Key = number | string | null;

function sortKey(
  by: Exclude<Sort['by'], 'order'>,
  notebook: Notebook,
  day: DayId | null,
  figures: RowFigures,
): (row: GridRow) => Key {
  if (by === 'tag') return (row) => row.tag;
  if (by === 'group') return (row) => row.group || null;
  if (by === 'bench')
    return (row) => (day === null ? null : (newest(notebook.bench[day]?.[row.id]) ?? null));
  const column = by.column;
  const isOutcome = notebook.columns[column]?.kind?.[0]?.[0] === 'outcome';
  if (isOutcome) {
    const rank: Record<OutcomeKind, number> = { over: 2, 'not enough known': 1, below: 0 };
    return ({ id }) => rank[figures.outcome(id).kind] * 1000 + figures.outcome(id).danger;
  }
  const isEpg = columnByKey(notebook, 'epg')?.id === column;
  return ({ id }) => {
    const value = figures.value(id, column);
    if (value === null || value === '' || isFault(value)) {
      if (day === null) return null;
      const typed = readingOf(notebook, day, id, column);
      // Too many to count is more than any count; it must not sink among the uncounted.
      if (typed?.kind === 'too-many') return Number.POSITIVE_INFINITY;
      if (typed?.kind === 'over') return typed.value + 0.5;
      if (typed?.kind === 'text') return typed.text;
      return isEpg ? boundKey(notebook, day, id, figures) : null;
    }
    return typeof value === 'boolean' ? Number(value) : value;
  };
}

function boundKey(notebook: Notebook, day: DayId, row: RowId, figures: RowFigures): Key {
  const bound = boundEpg(notebook, day, row, (key) => {
    const column = columnByKey(notebook, key);
    return column ? figures.value(row, column.id) : null;
  });
  return bound?.is === 'too many' ? Number.POSITIVE_INFINITY : (bound?.epg ?? null);
}

function compare(a: number | string, b: number | string): number {
  if (typeof a === 'number' && typeof b === 'number') return a < b ? -1 : a > b ? 1 : 0;
  return naturalText(String(a), String(b));
}

/** Text with its numbers by size, so that `K-9` comes before `K-10`; the same on every machine. */
export function naturalText(a: string, b: string): number {
  const left = a.split(/(\d+)/);
  const right = b.split(/(\d+)/);
  for (let i = 0; i < Math.min(left.length, right.length); i += 1) {
    const [p, q] = [left[i] ?? '', right[i] ?? ''];
    const isNumber = i % 2 === 1;
    const by = isNumber
      ? p.replace(/^0+/, '').length - q.replace(/^0+/, '').length ||
        byText(p.replace(/^0+/, ''), q.replace(/^0+/, ''))
      : byText(p, q);
    if (by !== 0) return by;
  }
  return left.length - right.length || byText(a, b);
}

/**
 * The rows after a change, in the order they were shown in: nothing jumps under the hand. Rows that
 * are gone drop out, new ones come where `fresh` has them, after the row they follow there.
 */
export function keptOrder(
  shown: readonly GridRow[],
  fresh: readonly GridRow[],
  all: readonly GridRow[],
): readonly GridRow[] {
  const now = new Map(all.map((row) => [row.id, row]));
  const kept = shown.flatMap((row) => now.get(row.id) ?? []);
  const known = new Set(kept.map((row) => row.id));
  const result = [...kept];
  fresh.forEach((row, at) => {
    if (known.has(row.id)) return;
    const before = fresh[at - 1];
    const after = before ? result.findIndex((r) => r.id === before.id) : -1;
    result.splice(after + 1, 0, row);
    known.add(row.id);
  });
  return result;
}
