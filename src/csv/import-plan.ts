import type { AnimalFacts } from '../../shared/notebook.ts';
import type { Reading } from '../../shared/reading.ts';
import type { ColumnId, DayId, RowId } from '../../shared/ref.ts';
import type { ColumnRole, Question, Role } from './role.ts';
import { say } from '../text/say.ts';

/** What is said beside the list: answers and choices so far, and what the list itself leaves open. */
export interface ImportOptions {
  /** Answers by question id, each the `value` of one of its choices. */
  readonly answers?: ReadonlyMap<string, string>;
  /** Roles that the person chose, by column. */
  readonly chosen?: ReadonlyMap<number, Role>;
  /** The sampling day of readings that name none: `2026-05-03`, `2026-05-03-evening`. */
  readonly day?: DayId | null;
  /** Ids for new animals and cups. */
  readonly newId: () => string;
}

/**
 * Something to look at, with its line. `left out`: it is not taken; `kept as typed`: it is kept and
 * shown with its reason, and enters no figure; `look`: all is taken.
 */
export interface ImportProblem {
  readonly kind: string;
  readonly what: 'left out' | 'kept as typed' | 'look';
  readonly line: number;
  readonly text: string;
  readonly sentence: string;
}

/** A problem with its line in front of the sentence. */
export function atLine(problem: ImportProblem): ImportProblem {
  const { line, sentence } = problem;
  return { ...problem, sentence: say('Line {line}: {sentence}', { line, sentence }) };
}

/** One animal that the list names. */
export interface PlannedAnimal {
  readonly id: RowId;
  readonly tag: string;
  readonly isNew: boolean;
  /** The line that names it first. */
  readonly line: number;
  /** Facts of a new animal; for a known one only those that the notebook has not. */
  readonly facts: Partial<Omit<AnimalFacts, 'tag' | 'order' | 'removed'>>;
  /** The group it is in from a date on, where that is news. */
  readonly groups: readonly { readonly date: string; readonly group: string }[];
}

export interface PlannedDay {
  readonly id: DayId;
  readonly date: string;
  readonly label: string;
  readonly isNew: boolean;
}

/** A cup of its own: not yet assigned, a recount or pooled. */
export interface PlannedCup {
  readonly id: RowId;
  readonly day: DayId;
  readonly number: number;
  readonly animalIds: readonly string[];
  readonly isNew: boolean;
}

/** One value to set. */
export interface PlannedReading {
  readonly value: Reading;
  readonly line: number;
  /** Not in the list itself: a factor or a zero that goes with a count. */
  readonly isAdded: boolean;
}

/** By day, row and column. */
export type PlannedReadings = ReadonlyMap<
  DayId,
  ReadonlyMap<RowId, ReadonlyMap<ColumnId, PlannedReading>>
>;

/** What is done with one column of the list. */
export interface PlannedColumn extends ColumnRole {
  /** Why the column is left out; `null` where it is taken. */
  readonly leftOut: string | null;
}

/** What an import would do, before it is done. */
export interface ImportPlan {
  readonly columns: readonly PlannedColumn[];
  /** Not answered yet. Those without a usual answer have to be answered first. */
  readonly questions: readonly Question[];
  /** Readings stand in the list without a day, and none was named for them. */
  readonly needsDay: boolean;
  readonly problems: readonly ImportProblem[];
  readonly animals: readonly PlannedAnimal[];
  readonly days: readonly PlannedDay[];
  readonly cups: readonly PlannedCup[];
  readonly readings: PlannedReadings;
  /** By day and row: the line that names the row first, whether it has readings or none. */
  readonly lines: ReadonlyMap<DayId, ReadonlyMap<RowId, number>>;
  /** What became of the rows: taken, waiting for an answer or a day, left out (their lines). */
  readonly rows: {
    readonly taken: number;
    readonly waiting: number;
    readonly out: readonly number[];
  };
  /** Values of the list to set, what goes with them, and those kept as typed. */
  readonly count: number;
  readonly countAdded: number;
  readonly countKept: number;
  /** Readings already there with the same value. */
  readonly countSame: number;
  /** By day: the number of each animal's cup, where the list gives it. */
  readonly bench: ReadonlyMap<DayId, ReadonlyMap<RowId, number>>;
  /** A column for eggs per gram as they were reported, to be added. */
  readonly addsReportedColumn: boolean;
}

/** The column that keeps a laboratory's eggs per gram apart from the notebook's own. */
export const reportedColumn = {
  id: 'c-epg_reported',
  key: 'epg_reported',
  label: say('epg as reported'),
  unit: say('eggs per gram'),
  kind: 'number',
  about: 'cup',
  low: 0,
  help: say(
    'Eggs per gram as a laboratory or an old list reported them. Kept as they are; no figure of this notebook rests on them.',
  ),
} as const;

/** Whether the plan can be done as it stands. */
export function isReady(plan: ImportPlan): boolean {
  return (
    !plan.needsDay &&
    plan.questions.every(({ usual }) => usual !== undefined) &&
    !plan.problems.some(({ kind }) => kind === 'not-a-list' || kind === 'no-tag-column')
  );
}
