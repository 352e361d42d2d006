import type { WeightUnit } from '../../shared/reading.ts';
import type { DayId } from '../../shared/ref.ts';
import type { DateOrder, DateReading } from '../text/date-reading.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import type { TableFault } from './table.ts';

/** The sampling day that a heading names. `day` is `null` until a doubtful date is settled. */
export interface HeadingDay {
  readonly readings: readonly DateReading[];
  readonly label: string;
  readonly day: DayId | null;
}

/**
 * What a column of a list is. Where `day` is `null` the reading belongs to the day of its row (a
 * date column) or to the day that the list is read into. `count` is eggs counted, `epg` eggs per
 * gram as a laboratory reports them; `column` is a column of the notebook, by key.
 */
export type Role =
  | {
      readonly role:
        | 'tag'
        | 'electronic'
        | 'name'
        | 'group'
        | 'class'
        | 'species'
        | 'label'
        | 'time'
        | 'cup'
        | 'note';
    }
  | { readonly role: 'date' | 'born'; readonly order: DateOrder | 'any' | null }
  | { readonly role: 'weight'; readonly unit: WeightUnit | null; readonly day: HeadingDay | null }
  | { readonly role: 'count' | 'epg'; readonly day: HeadingDay | null }
  | { readonly role: 'column'; readonly key: string; readonly day: HeadingDay | null }
  | { readonly role: 'ignored'; readonly why: string };

/** One column's role as guessed or chosen, and what else it might be. */
export interface ColumnRole {
  /** Counted from 0. */
  readonly column: number;
  readonly header: string;
  readonly role: Role;
  readonly others: readonly Role[];
  /** False where a look is worth while: the guess rests on the values alone. */
  readonly sure: boolean;
}

/** Something only the person knows; asked once for the column or the file, never for each cell. */
export interface Question {
  readonly id: string;
  readonly kind:
    | 'date-order'
    | 'same-heading'
    | 'weight-unit'
    | 'count-areas'
    | 'epg-meaning'
    | 'same-animal-twice'
    | 'already-there'
    | 'blank-egg-types';
  readonly columns: readonly number[];
  readonly sentence: string;
  readonly choices: readonly { readonly value: string; readonly label: string }[];
  /** The choice that holds until another is made: shown, but nobody has to wait for an answer. */
  readonly usual?: string;
}

/** A column of the notebook, so far as reading a list needs it. */
export interface KnownColumn {
  readonly key: string;
  readonly label?: string;
  /** Worked out by the notebook: kept out of an import. */
  readonly derived?: boolean;
}

export interface Roles {
  readonly columns: readonly ColumnRole[];
  /** Not answered yet. An import waits until there are none. */
  readonly questions: readonly Question[];
  /** Tags destroyed or missing, dates that are none, tags alike. */
  readonly faults: readonly TableFault[];
  readonly decimalMark: DecimalMark;
}

/** What is known beside the table: the notebook's columns, and what the person said so far. */
export interface RoleOptions {
  readonly known?: readonly KnownColumn[];
  /** Answers by question id, each the `value` of one of its choices. */
  readonly answers?: ReadonlyMap<string, string>;
  /** Roles that the person chose, by column. */
  readonly chosen?: ReadonlyMap<number, Role>;
  /** Where the numbers themselves leave it open. */
  readonly decimalMark?: DecimalMark;
}
