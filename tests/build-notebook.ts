import type { Json, Stamp } from '../shared/cell.ts';
import type { Change, Edit, SetTo } from '../shared/edit.ts';
import type { AnimalFacts, Criterion, DayFacts, Notebook } from '../shared/notebook.ts';
import type { Reading } from '../shared/reading.ts';
import { isFault } from '../shared/value.ts';
import { applyEdit } from '../src/notebook/apply-edit.ts';
import { emptyNotebook, fromTemplate } from '../src/notebook/from-template.ts';
import { readTemplate } from '../src/notebook/read-template.ts';
import { columnByKey } from '../src/notebook/read.ts';
import { toStored } from '../src/engine/stored-formula.ts';
import { parseReading } from '../src/text/parse-reading.ts';
import summer from '../templates/summer-grazing.json' with { type: 'json' };

let counter = 0;

/** Stamps one after the other: tests write one step at a time. */
export function nextStamp(): Stamp {
  counter += 1;
  return [1_780_000_000_000, counter, 'bench'];
}

/** One edit on a notebook, with what it changed. */
export function edited(
  notebook: Notebook,
  sets: readonly SetTo[],
): { readonly notebook: Notebook; readonly changes: readonly Change[] } {
  const edit: Edit = { label: 'test', source: 'typed', sets };
  return applyEdit(notebook, edit, nextStamp());
}

/** What a person typing `text` under a column's name leaves there; '' clears. Fails on an unknown name. */
export function reading(notebook: Notebook, key: string, text: string): Reading | null {
  const column = columnByKey(notebook, key);
  if (!column) throw new Error(`no column ${key}`);
  return parseReading(column, text, { decimalMark: '.', weightUnit: 'kg' });
}

export function columnId(notebook: Notebook, key: string): string {
  const column = columnByKey(notebook, key);
  if (!column) throw new Error(`no column ${key}`);
  return column.id;
}

/** Typing one cell. */
export function typing(
  notebook: Notebook,
  day: string,
  row: string,
  key: string,
  text: string,
): SetTo {
  return {
    path: ['readings', day, row, columnId(notebook, key)],
    value: reading(notebook, key, text),
  };
}

/** A column added with a formula in current names, its id the key with `x-` before it. */
export function formulaColumn(notebook: Notebook, key: string, formula: string): SetTo[] {
  const id = `x-${key}`;
  const facts = { key, kind: 'formula', label: key, order: `z-${key}` };
  const named = edited(notebook, fields('columns', id, facts)).notebook;
  return fields('columns', id, { ...facts, formula: toStored(named, formula) });
}

/** A figure added with a formula in current names, its id the key with `f-` before it. */
export function figureLine(notebook: Notebook, key: string, formula: string): SetTo[] {
  const facts = { key, label: key, order: `z-${key}`, formula: toStored(notebook, formula) };
  return fields('figures', `f-${key}`, facts);
}

/** A limit with its usual value; null leaves it without one. */
export function limitLine(key: string, value: number | null): SetTo[] {
  return [
    ...fields('limits', `l-${key}`, { key, label: key }),
    { path: ['settings', 'default', `l-${key}`], value },
  ];
}

/** A criterion on a condition in current names. */
export function criterion(
  notebook: Notebook,
  condition: string,
  more: Partial<Criterion> = {},
): Criterion {
  return {
    id: condition || 'too-many',
    reason: condition,
    condition: toStored(notebook, condition),
    mustBeKnown: false,
    danger: 1,
    ...more,
  };
}

export function fields(
  table: 'columns' | 'figures' | 'limits' | 'animals' | 'days' | 'treatments' | 'products',
  id: string,
  facts: object,
): SetTo[] {
  return Object.entries(facts).map(([field, value]): SetTo => ({
    path: [table, id, field],
    value: value as Json,
  }));
}

export interface Parts {
  /** By id; the tag is the id unless given. */
  readonly animals?: Readonly<Record<string, Partial<AnimalFacts> & { readonly group?: string }>>;
  /** By id, oldest first; the date is the first ten letters of the id unless given. */
  readonly days?: Readonly<Record<string, Partial<DayFacts>>>;
  /** `counts[day][animal]`: what is typed, by column key. */
  readonly counts?: Readonly<
    Record<string, Readonly<Record<string, Readonly<Record<string, string>>>>>
  >;
}

/** A summer grazing notebook with these animals, days and counts. */
export function summerNotebook({ animals = {}, days = {}, counts = {} }: Parts): Notebook {
  const template = readTemplate(summer);
  if (isFault(template)) throw new Error(template.sentence);
  const making = { id: 'n', title: 'test', stamp: nextStamp(), bind: toStored };
  const notebook = fromTemplate(template, making);
  const sets: SetTo[] = [];
  for (const [id, { group, ...facts }] of Object.entries(animals)) {
    sets.push(...fields('animals', id, { tag: id, order: id, ...facts }));
    if (group !== undefined) sets.push({ path: ['groups', id, '2026-01-01'], value: group });
  }
  for (const [id, facts] of Object.entries(days))
    sets.push(...fields('days', id, { date: id.slice(0, 10), label: id.slice(11), ...facts }));
  for (const [day, rows] of Object.entries(counts)) {
    for (const [row, cells] of Object.entries(rows)) {
      for (const [key, text] of Object.entries(cells))
        sets.push(typing(notebook, day, row, key, text));
    }
  }
  return edited(notebook, sets).notebook;
}

/** A notebook with nothing in it but what the sets say. */
export function bareNotebook(sets: readonly SetTo[] = []): Notebook {
  return edited(emptyNotebook('bare'), sets).notebook;
}
