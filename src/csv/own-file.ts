import type { Column, Notebook } from '../../shared/notebook.ts';
import { columnsOf } from '../notebook/read.ts';
import type { Role } from './role.ts';
import type { Table } from './table.ts';
import { say } from '../text/say.ts';

/** The columns by which a row of a tidy file is known, in order. */
export const tidyKeys = ['notebook', 'place', 'date', 'day_label', 'tag', 'cup'] as const;

/** Facts of the animal, and whose cup the row is about. */
export const tidyFacts = ['electronic', 'name', 'species', 'class', 'group', 'sample'] as const;

/** At the end: keys of the columns whose text could not be read, and what is wrong with each. */
export const tidyRemarks = ['unread', 'problems'] as const;

const reserved = new Set<string>([...tidyKeys, ...tidyFacts, ...tidyRemarks]);

/**
 * The heading of a notebook's column in a tidy file: its key, unless a key column is called so. Where a
 * column is worked out and may be typed over, its key heads what is in use and `…_typed` what was typed.
 */
export function tidyHeading(
  { key }: Column,
  part: 'value' | 'typed' | 'unit' | 'kg' | 'why' = 'value',
): string {
  const plain = reserved.has(key) ? `reading_${key}` : key;
  return part === 'value' ? plain : `${plain}_${part}`;
}

/** All headings of a notebook's tidy file, in order; the outcome stands last where no column shows it. */
export function tidyHeadings(notebook: Notebook): readonly string[] {
  const columns = columnsOf(notebook);
  const hasOutcome = columns.some(({ kind }) => kind === 'outcome');
  return [
    ...tidyKeys,
    ...tidyFacts,
    ...columns.flatMap(tidyParts),
    ...(hasOutcome ? [] : ['outcome', 'outcome_why']),
    ...tidyRemarks,
  ];
}

function tidyParts(column: Column): readonly string[] {
  const value = tidyHeading(column);
  if (column.kind === 'weight')
    return [value, tidyHeading(column, 'unit'), tidyHeading(column, 'kg')];
  if (column.kind === 'outcome') return [value, tidyHeading(column, 'why')];
  return column.kind === 'formula' && column.typedOver
    ? [value, tidyHeading(column, 'typed')]
    : [value];
}

/** A tidy file's columns by place, where the file is one. */
export interface OwnFile {
  readonly roles: ReadonlyMap<number, Role>;
  readonly sample: number;
  readonly unread: number;
  /** For the column of weights: the column that holds the unit of each. */
  readonly units: ReadonlyMap<number, number>;
}

/**
 * Recognises a tidy file by its headings, so that it reads back exactly: what was typed is taken, what
 * was worked out is left for the notebook to work out again. `null` for any other list.
 */
export function ownFile(table: Table, notebook: Notebook): OwnFile | null {
  const at = new Map(table.headers.map((heading, column) => [heading.trim(), column]));
  if (!['date', 'day_label', 'tag', 'cup', 'sample', 'unread'].every((key) => at.has(key)))
    return null;
  const ours = new Set(tidyHeadings(notebook));
  const roles = new Map<number, Role>();
  const units = new Map<number, number>();
  for (const column of columnsOf(notebook)) {
    const isDerived = column.kind === 'formula' || column.kind === 'outcome';
    if (isDerived && column.typedOver !== true) continue;
    const place = at.get(tidyHeading(column, isDerived ? 'typed' : 'value'));
    if (place === undefined) continue;
    roles.set(place, { role: 'column', key: column.key, day: null });
    const unit = at.get(tidyHeading(column, 'unit'));
    if (column.kind === 'weight' && unit !== undefined) units.set(place, unit);
  }
  for (const [heading, role] of keyRoles) {
    const column = at.get(heading);
    if (column !== undefined) roles.set(column, role);
  }
  table.headers.forEach((heading, column) => {
    if (roles.has(column)) return;
    const why = ours.has(heading.trim()) ? workedOut : say('the heading is not known');
    roles.set(column, { role: 'ignored', why });
  });
  return { roles, units, sample: at.get('sample') ?? -1, unread: at.get('unread') ?? -1 };
}

const workedOut = say('the notebook works this out itself');
const described: Role = { role: 'ignored', why: say('it says where the file came from') };
const keyRoles: readonly (readonly [string, Role])[] = [
  ['notebook', described],
  ['place', described],
  ['date', { role: 'date', order: 'any' }],
  ['day_label', { role: 'label' }],
  ['tag', { role: 'tag' }],
  ['cup', { role: 'cup' }],
  ['electronic', { role: 'electronic' }],
  ['name', { role: 'name' }],
  ['species', { role: 'species' }],
  ['class', { role: 'class' }],
  ['group', { role: 'group' }],
];
