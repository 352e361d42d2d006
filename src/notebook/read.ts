import type {
  About,
  Animal,
  Block,
  Column,
  DayCopy,
  Figure,
  Known,
  Limit,
  Notebook,
  Product,
  SamplingDay,
  Treatment,
} from '../../shared/notebook.ts';
import type { Table } from '../../shared/cell.ts';
import type { Reading } from '../../shared/reading.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import { known, newest } from './cell.ts';
import { columnId } from './record-sets.ts';

/**
 * Reads one table into its records, in the order a person sees them, removed ones left out. The same
 * table gives the same array, so that selectors can compare by identity.
 */
const listed = new WeakMap<object, readonly unknown[]>();

function records<T extends { readonly order?: string; readonly removed?: boolean }>(
  table: Table<T>,
  isWhole: (record: Known<T>) => boolean,
): readonly Known<T>[] {
  const kept = listed.get(table);
  if (kept) return kept as readonly Known<T>[];
  const list = Object.entries(table)
    .map(([id, fields]) => known<T>(id, fields))
    .filter((record) => record.removed !== true && isWhole(record))
    .sort((a, b) => byText(a.order ?? '', b.order ?? '') || byText(a.id, b.id));
  listed.set(table, list);
  return list;
}

/** Plain code-point order, the same on every machine. */
export function byText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

export function aboutOf(notebook: Notebook): About {
  return known('notebook', notebook.about['notebook'] ?? {});
}

/** How decimals are written in this notebook. */
export function markOf(notebook: Notebook): DecimalMark {
  return aboutOf(notebook).decimalMark ?? '.';
}

/** What the animals of this notebook are called together: flock, herd or mob. */
export function herdWordOf(notebook: Notebook): string {
  return aboutOf(notebook).herdWord ?? 'herd';
}

export function defaultsOf(notebook: Notebook): Partial<DayCopy> {
  return known('default', notebook.defaults['default'] ?? {});
}

/** Every animal not removed, in row order, whether present on some day or not. */
export function animalsOf(notebook: Notebook): readonly Animal[] {
  return records(notebook.animals, (a) => a.tag !== undefined) as readonly Animal[];
}

export function animalOf(notebook: Notebook, id: string): Animal | undefined {
  const fields = notebook.animals[id];
  return fields ? (known(id, fields) as Animal) : undefined;
}

/** Every column not removed, hidden ones included, in column order. */
export function columnsOf(notebook: Notebook): readonly Column[] {
  return records(notebook.columns, (c) => !!c.key && !!c.kind) as readonly Column[];
}

export function columnOf(notebook: Notebook, id: string): Column | undefined {
  const fields = notebook.columns[id];
  return fields ? (known(id, fields) as Column) : undefined;
}

const columnsByKey = new WeakMap<readonly Column[], ReadonlyMap<string, Column>>();

export function columnByKey(notebook: Notebook, key: string): Column | undefined {
  const columns = columnsOf(notebook);
  let byKey = columnsByKey.get(columns);
  if (!byKey) {
    // Of two with one key, which two copies may bring, the first counts.
    byKey = new Map([...columns].reverse().map((column) => [column.key, column]));
    columnsByKey.set(columns, byKey);
  }
  return byKey.get(key);
}

/** The column of a sign that dangers are read from (`eyelid`, `jaw`): the template's own, whatever its name in formulas is by now. */
export function signColumn(notebook: Notebook, name: string): Column | undefined {
  const own = columnsOf(notebook).find(({ id }) => id === columnId(name));
  return own ?? columnByKey(notebook, name);
}

const daysListed = new WeakMap<object, readonly SamplingDay[]>();

/** Sampling days not removed, oldest first; several on one date by their labels. */
export function daysOf(notebook: Notebook): readonly SamplingDay[] {
  const kept = daysListed.get(notebook.days);
  if (kept) return kept;
  const days = Object.entries(notebook.days)
    .map(([id, fields]) => known(id, fields) as SamplingDay)
    .filter((day) => day.removed !== true && day.date !== undefined)
    .sort((a, b) => byText(a.date, b.date) || byText(a.label ?? '', b.label ?? ''));
  daysListed.set(notebook.days, days);
  return days;
}

/** A day by its id, a removed one as well; none where its adding was undone, which leaves no date. */
export function dayOf(notebook: Notebook, id: string): SamplingDay | undefined {
  const fields = notebook.days[id];
  const day = fields && known(id, fields);
  return day?.date === undefined ? undefined : (day as SamplingDay);
}

/** The sampling day before this one, if any. */
export function dayBefore(notebook: Notebook, id: string): SamplingDay | undefined {
  const days = daysOf(notebook);
  const at = days.findIndex((day) => day.id === id);
  return at > 0 ? days[at - 1] : undefined;
}

export function limitsOf(notebook: Notebook): readonly Limit[] {
  return records(notebook.limits, (l) => !!l.key) as readonly Limit[];
}

export function figuresOf(notebook: Notebook): readonly Figure[] {
  return records(notebook.figures, (f) => !!f.key && f.formula !== undefined) as readonly Figure[];
}

export function blocksOf(notebook: Notebook): readonly Block[] {
  return records(notebook.blocks, (b) => !!b.kind) as readonly Block[];
}

export function productsOf(notebook: Notebook): readonly Product[] {
  return records(notebook.products, (p) => p.name !== undefined);
}

const treatmentsListed = new WeakMap<object, readonly Treatment[]>();

/** Treatments not removed, oldest first. */
export function treatmentsOf(notebook: Notebook): readonly Treatment[] {
  const kept = treatmentsListed.get(notebook.treatments);
  if (kept) return kept;
  const list = Object.entries(notebook.treatments)
    .map(([id, fields]) => known(id, fields) as Treatment)
    .filter((t) => t.removed !== true && t.animal !== undefined && t.date !== undefined)
    .sort((a, b) => byText(a.date ?? '', b.date ?? '') || byText(a.id, b.id));
  treatmentsListed.set(notebook.treatments, list);
  return list;
}

/** What was typed at a place; `undefined` when nothing stands there. */
export function readingOf(
  notebook: Notebook,
  day: string,
  row: string,
  column: string,
): Reading | undefined {
  return newest(notebook.readings[day]?.[row]?.[column]);
}

/** A limit's value on a day: the day's own, else the default; `undefined` when none is set. */
export function limitValue(notebook: Notebook, day: string, limitId: string): number | undefined {
  return (
    newest(notebook.settings[day]?.[limitId]) ?? newest(notebook.settings['default']?.[limitId])
  );
}
