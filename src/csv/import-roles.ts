import type { Notebook } from '../../shared/notebook.ts';
import { columnsOf, markOf } from '../notebook/read.ts';
import { guessRoles } from './guess-roles.ts';
import type { ImportOptions } from './import-plan.ts';
import { ownFile, type OwnFile, tidyHeading } from './own-file.ts';
import type { KnownColumn, Role, Roles } from './role.ts';
import type { Table } from './table.ts';

/** The notebook's columns, so far as reading a list needs them. */
export function knownColumns(notebook: Notebook): readonly KnownColumn[] {
  return columnsOf(notebook).map(({ key, label, kind, typedOver }) => ({
    key,
    ...(label === undefined ? {} : { label }),
    derived: kind === 'outcome' || (kind === 'formula' && typedOver !== true),
  }));
}

/**
 * Whether a text heads a column of this notebook: for `readTable`, so that a header of the notebook's own
 * words is found below titles.
 */
export function isNotebookHeading(notebook: Notebook): (text: string) => boolean {
  const words = new Set<string>();
  for (const column of columnsOf(notebook)) {
    words.add(column.key);
    words.add(tidyHeading(column, 'typed'));
    if (column.label) words.add(column.label.trim().toLowerCase());
  }
  return (text) => words.has(text.trim().toLowerCase());
}

/** The roles of a list's columns for this notebook; a tidy file of ours is known without guessing. */
export function rolesFor(
  table: Table,
  notebook: Notebook,
  options: Pick<ImportOptions, 'answers' | 'chosen'>,
): { readonly roles: Roles; readonly own: OwnFile | null } {
  const own = ownFile(table, notebook);
  const roles = guessRoles(table, {
    known: knownColumns(notebook),
    chosen: new Map<number, Role>([...(own?.roles ?? []), ...(options.chosen ?? [])]),
    answers: new Map([
      ...[...(own?.units.keys() ?? [])].map((column) => [`unit:${column}`, 'kg'] as const),
      ...(options.answers ?? []),
    ]),
    decimalMark: markOf(notebook),
  });
  if (!own) return { roles, own };
  return { roles: { ...roles, decimalMark: table.separator === ';' ? ',' : '.' }, own };
}
