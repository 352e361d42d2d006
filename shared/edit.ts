import type { Cell, Json, Stamp } from './cell.ts';
import type { TableName } from './notebook.ts';

/** Where in the notebook a cell stands. */
export type Path =
  | readonly [table: TableName, id: string, field: string]
  | readonly [table: 'readings', day: string, row: string, column: string];

/** Wanted: this value at this place; `null` clears it. */
export interface SetTo {
  readonly path: Path;
  readonly value: Json;
}

/** Where an edit came from, for the journal and the announcements. */
export type Source = 'typed' | 'paste' | 'fill' | 'import' | 'merge' | 'undo' | 'redo' | 'template';

/**
 * Everything a person does: one intention, one step of undo. `label` continues "Undo: …" and says
 * what was done ("count of K-019", "import of counts.csv").
 */
export interface Edit {
  readonly label: string;
  readonly source: Source;
  readonly sets: readonly SetTo[];
}

/** One reversible fact. `undefined` means the cell was never written. */
export interface Change {
  readonly path: Path;
  readonly from: Cell<Json> | undefined;
  readonly to: Cell<Json> | undefined;
}

/** What an edit did, with the stamp that its cells now bear. */
export interface Transaction {
  readonly label: string;
  readonly source: Source;
  readonly stamp: Stamp;
  readonly changes: readonly Change[];
}
