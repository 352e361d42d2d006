import type { Column, Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { columnsOf } from '../notebook/read.ts';
import { targetOf } from './names.ts';
import { parseStored } from './stored-formula.ts';
import { partsOf, type Syntax } from './syntax.ts';

/**
 * Counts that make up one cup together, because one `EGGS(…)` or `COUNTED(…)` takes them in: if one of
 * them cannot be used, the others must not pass for the whole cup.
 */
export interface EggGroup {
  readonly counts: readonly string[];
  /** Parts of the grid that go with the counts. */
  readonly parts: readonly string[];
}

/** The groups that the formulas of a notebook make. */
export function eggGroups(notebook: Notebook): readonly EggGroup[] {
  const groups: EggGroup[] = [];
  for (const column of columnsOf(notebook)) {
    if (column.kind !== 'formula') continue;
    for (const { name, args } of callsIn(notebook, column)) {
      const named = args.map((arg) => columnIn(notebook, arg));
      const kinds = named.filter((found) => found !== null);
      const counts = kinds.filter((found) => found.kind === 'count').map((found) => found.id);
      const parts = kinds.filter((found) => found.kind === 'part').map((found) => found.id);
      if ((name === 'EGGS' || name === 'COUNTED') && counts.length > 0)
        groups.push({ counts, parts });
    }
  }
  return groups;
}

function callsIn(notebook: Notebook, column: Column): Extract<Syntax, { kind: 'call' }>[] {
  const syntax = parseStored(notebook, column.formula ?? '');
  if (isFault(syntax)) return [];
  return [...partsOf(syntax)].filter((part) => part.kind === 'call');
}

function columnIn(notebook: Notebook, arg: Syntax): Column | null {
  if (arg.kind !== 'own' || arg.when !== 'same') return null;
  const target = targetOf(notebook, arg.name);
  return !isFault(target) && target.kind === 'column' ? target.column : null;
}

/**
 * The count columns that a formula column of this key rests on, by way of other columns: for `epg`, the
 * chambers. Without such a column, every count that is no further egg type.
 */
export function countsBehind(notebook: Notebook, key: string): readonly string[] {
  const columns = columnsOf(notebook);
  const start = columns.find((column) => column.key === key && column.kind === 'formula');
  if (!start) {
    return columns
      .filter((column) => column.kind === 'count' && !column.otherEggs)
      .map((column) => column.id);
  }
  const counts = new Set<string>();
  const seen = new Set<string>();
  const walk = (column: Column): void => {
    if (seen.has(column.id)) return;
    seen.add(column.id);
    if (column.kind === 'count') counts.add(column.id);
    if (column.kind !== 'formula') return;
    for (const named of columnsNamed(notebook, column)) walk(named);
  };
  walk(start);
  return [...counts];
}

/** The columns of the same row that a formula column names. */
export function columnsNamed(notebook: Notebook, column: Column): readonly Column[] {
  const syntax = parseStored(notebook, column.formula ?? '');
  if (isFault(syntax)) return [];
  return [...partsOf(syntax)]
    .map((part) => columnIn(notebook, part))
    .filter((found) => found !== null);
}
