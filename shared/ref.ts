/** A day id: ISO date plus an optional label, `2026-05-03` or `2026-05-03-evening`. */
export type DayId = string;
/** Who a grid row is about: an animal's id (its implied cup) or a cup's id. */
export type RowId = string;
/** A column's id; its key, the name in formulas, may change, the id never does. */
export type ColumnId = string;

/** One cell of the notebook, by ids. */
export interface Ref {
  readonly day: DayId;
  readonly row: RowId;
  readonly column: ColumnId;
}

/** One text per ref, for maps and sets. Ids never hold a newline. */
export function refKey(ref: Ref): string {
  return `${ref.day}\n${ref.row}\n${ref.column}`;
}
