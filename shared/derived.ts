import type { Change } from './edit.ts';
import type { Notebook } from './notebook.ts';
import type { ColumnId, DayId, Ref, RowId } from './ref.ts';
import type { Fault, Value } from './value.ts';

/** A figure wanted: a stored formula for a day, over one group or (null) all animals present. */
export interface FigureAsked {
  readonly formula: string;
  readonly day: DayId;
  readonly group: string | null;
}

/** A figure's answer with its n of N: how many of the animals present had what it needs. */
export interface FigureAnswer {
  readonly value: Value;
  /** Animals counted in the first list the formula names; null when it names none. */
  readonly counted: number | null;
  readonly present: number;
}

/** Where a derived cell comes from, for "where does this number come from". */
export interface Explanation {
  /** The formula in current names, `EPG(eggs, factor)`. */
  readonly formula: string;
  /** The same with names replaced by the values used, `EPG(31, 50)`. */
  readonly withValues: string;
  readonly value: Value;
  /** The own-row inputs by key, with what they held. */
  readonly inputs: readonly { readonly key: string; readonly value: Value }[];
  /** Trade functions named, for their help cards. */
  readonly functions: readonly string[];
}

/** How one criterion stands for one animal: held, not held, or could not be judged, with what lacks. */
export interface CriterionAnswer {
  readonly criterion: string;
  readonly holds: boolean | null;
  /** Keys of the columns without which it could not be judged. */
  readonly lacking: readonly string[];
  readonly fault?: Fault;
}

/**
 * The engine speaks ids, never addresses. It holds one open day and whatever days its formulas name.
 * Every method that changes it answers with a promise, so that it can move to a worker.
 */
export interface Engine {
  /** Loads a day, in chunks that yield to the page; a newer `open` supersedes an older one. */
  open(notebook: Notebook, day: DayId): Promise<void>;
  /** Takes in changes already applied to `notebook`; gives the open day's cells that changed. */
  apply(notebook: Notebook, changes: readonly Change[]): Promise<readonly Ref[]>;
  /** The row still being typed: one chamber of two is held back from it until it is left. */
  holdBack(row: RowId | null): Promise<readonly Ref[]>;
  /** A cell of the open day as formulas see it: typed input or derived figure. */
  value(row: RowId, column: ColumnId): Value;
  /** The open day's criteria for one animal, in the day's own order. */
  criteria(row: RowId): readonly CriterionAnswer[];
  /** One column of any day, evaluated and dropped, for season figures. */
  dayColumn(notebook: Notebook, day: DayId, column: ColumnId): Promise<ReadonlyMap<RowId, Value>>;
  /** Figures after paint: evaluated in slices; rejects with an AbortError once `signal` is aborted. */
  figures(
    asked: readonly FigureAsked[],
    signal?: { readonly aborted: boolean },
  ): Promise<readonly FigureAnswer[]>;
  /** What a formula in current names gives on the open day (own-row names need `row`). */
  evaluate(shown: string, row?: RowId): Value;
  /** Whether a formula in current names could stand: null, or what is wrong and what to do. */
  check(shown: string, place: 'column' | 'figure' | 'criterion', ownKey?: string): Fault | null;
  explain(row: RowId, column: ColumnId): Explanation | null;
}
