import type { Cell, Fields, Seen, Table } from './cell.ts';
import type { Reading } from './reading.ts';
import type { Value } from './value.ts';

export type Species = 'sheep' | 'goat';
export type AnimalClass = 'ewe' | 'lamb' | 'ram' | 'wether' | 'doe' | 'kid' | 'buck';
export type Stage = 'dry' | 'pregnant' | 'late pregnant' | 'newly in milk' | 'in milk';

/** One animal. Groups are kept by date in `Notebook.groups`, because an animal may move. */
export interface AnimalFacts {
  /** Always text: `0012`, `FF-04-117`, a 15-digit electronic number. */
  readonly tag: string;
  readonly electronic: string;
  readonly name: string;
  readonly species: Species;
  readonly class: AnimalClass;
  /** Dates are ISO text. */
  readonly born: string;
  readonly arrived: string;
  /** First day the animal is no longer here, and why. */
  readonly left: string;
  readonly leftWhy: string;
  readonly stage: Stage;
  /** A person said that this is another animal than the one that bears an equal tag. */
  readonly keptApart: boolean;
  /** The id of the animal that this record was found to be, when two copies were made one. */
  readonly unitedInto: string;
  /** Fractional key: the order of the rows. */
  readonly order: string;
  readonly removed: boolean;
}

/**
 * `part` is the share of a grid counted (`1`, `0.5`, `3/6`); `weight` a number with kg or lb of its
 * own; `outcome` what the criteria say, worked out and never typed.
 */
export type ColumnKind =
  | 'count'
  | 'part'
  | 'number'
  | 'weight'
  | 'score'
  | 'tick'
  | 'text'
  | 'choice'
  | 'formula'
  | 'outcome';

export interface ColumnFacts {
  /** The name in formulas: small letters, digits, underscore. */
  readonly key: string;
  readonly label: string;
  /** One sentence: what to type here, or what the figure means. */
  readonly help: string;
  readonly unit: string;
  readonly kind: ColumnKind;
  readonly about: 'animal' | 'cup';
  /** Stored formula: names bound to ids, see `src/engine/stored-formula.ts`. */
  readonly formula: string;
  /** A formula column whose figure a person may type over in a row (grams, fluid, factor). */
  readonly typedOver: boolean;
  /** Score and number: least and greatest accepted; step of the scale (0.5 for half points). */
  readonly low: number;
  readonly high: number;
  readonly step: number;
  /** Score: words for its points, from `low` up. Choice: what may be chosen. */
  readonly words: readonly string[];
  /** A further egg type, counted over the same area and looked for on days that say so. */
  readonly otherEggs: boolean;
  /** Decimals shown; figures keep all of theirs. */
  readonly decimals: number;
  /** Shade this column by its figure, one hue from light to dark. */
  readonly shaded: boolean;
  readonly hidden: boolean;
  /** Pixels. */
  readonly width: number;
  readonly order: string;
  readonly removed: boolean;
}

/** How a sample is made up and counted. Every field may be overridden in a row. */
export interface Protocol {
  readonly grams: number;
  /** mL of fluid, `added` to the dung or `made up to` that volume with the dung in it. */
  readonly fluidMl: number;
  readonly fluidIs: 'added' | 'made up to';
  /** mL under one counted grid, and how many grids are counted. */
  readonly areaMl: number;
  readonly areas: number;
  /** Lanes in one grid, for counting a part of it. */
  readonly lanes: number;
  readonly fluid: string;
  readonly gravity: number;
}

/** One reason to treat. Any that holds puts an animal over the criteria. */
export interface Criterion {
  readonly id: string;
  readonly reason: string;
  /** Stored formula giving TRUE or FALSE; empty for the ready-made `too many to count`. */
  readonly condition: string;
  readonly ready?: 'too-many';
  readonly species?: Species;
  readonly classes?: readonly AnimalClass[];
  /** An animal for which this could not be judged is "not enough known". */
  readonly mustBeKnown: boolean;
  /** Danger first: greater comes first in the list. */
  readonly danger: number;
  readonly saidBy?: string;
  /** False while it is a template's example that no one has confirmed. */
  readonly confirmed?: boolean;
}

/** What each day keeps as its own copy, so that a changed default never rewrites the past. */
export interface DayCopy extends Protocol {
  readonly criteria: readonly Criterion[];
  /** Ids of the further egg types looked for. */
  readonly lookedFor: readonly string[];
}

/** Who said so of one limit, and whether the person has made it theirs. */
export interface LimitWord {
  readonly id: string;
  readonly saidBy?: string;
  readonly confirmed?: boolean;
}

export interface DayFacts extends DayCopy {
  readonly date: string;
  readonly label: string;
  readonly countedBy: string;
  /** For limits of which someone else said so on this day than the limit itself names. */
  readonly limitWords: readonly LimitWord[];
  readonly removed: boolean;
}

/** Samples in cups of their own: none (not yet assigned), one (a recount) or many animals (pooled). */
export interface CupFacts {
  readonly day: string;
  readonly number: number;
  readonly animalIds: readonly string[];
  readonly removed: boolean;
}

/** A named limit or setting; its values stand in `settings`, per day and by default. */
export interface LimitFacts {
  readonly key: string;
  readonly label: string;
  readonly help: string;
  readonly unit: string;
  readonly saidBy: string;
  /** False while it is a template's example that no one has confirmed. */
  readonly confirmed: boolean;
  readonly order: string;
  readonly removed: boolean;
}

/** A named formula line about the herd. */
export interface FigureFacts {
  readonly key: string;
  readonly label: string;
  readonly formula: string;
  readonly unit: string;
  readonly decimals: number;
  /** `percent` shows 0.25 as 25 %. */
  readonly shownAs: 'number' | 'percent' | 'animals';
  readonly order: string;
  readonly removed: boolean;
}

export type BlockKind =
  | 'grid'
  | 'figures'
  | 'treatment list'
  | 'shedding plot'
  | 'reduction check'
  | 'season trend'
  | 'bench sheet'
  | 'check list'
  | 'products'
  | 'treatment log'
  | 'plan a check'
  | 'note';

export interface BlockFacts {
  readonly kind: BlockKind;
  readonly title: string;
  /** The note's words, the check list's lines. */
  readonly text: string;
  /** A block's own choices: days compared, product, group. */
  readonly choices: Readonly<Record<string, string>>;
  readonly folded: boolean;
  readonly order: string;
  readonly removed: boolean;
}

/** What the label says of milk or meat. */
export type Withdrawal =
  | { readonly kind: 'days'; readonly days: number }
  | { readonly kind: 'hours'; readonly hours: number }
  | { readonly kind: 'not permitted' }
  | { readonly kind: 'not stated' };

/** A product as its label says; everything is typed by the person, nothing is shipped. */
export interface ProductFacts {
  readonly name: string;
  readonly activeGroup: string;
  /** The label's own line: `mL` per `per` kg (or lb). */
  readonly labelMl: number;
  readonly labelPer: number;
  readonly labelUnit: 'kg' | 'lb';
  readonly mgPerKg: number;
  readonly mgPerMl: number;
  readonly stepMl: number;
  readonly species: readonly Species[];
  readonly route: string;
  readonly batch: string;
  readonly expires: string;
  /** Days during which a count is marked "after treatment". */
  readonly afterDays: number;
  /** Days from treatment to the second sample, where the person's differ from the group's usual ones. */
  readonly sampleFromDays: number;
  readonly sampleToDays: number;
  readonly meat: Withdrawal;
  readonly milk: Withdrawal;
  /** A dose and withdrawal a vet set, with the vet's name; lifts the label's stops. */
  readonly vetName: string;
  readonly vetDose: string;
  readonly vetMl: number;
  readonly vetPerKg: number;
  readonly vetMeat: Withdrawal;
  readonly vetMilk: Withdrawal;
  /** No longer in use: kept for the log and old checks, no longer offered. */
  readonly retired: boolean;
  readonly order: string;
  readonly removed: boolean;
}

/** One animal treated once. */
export interface TreatmentFacts {
  readonly animal: string;
  readonly product: string;
  readonly date: string;
  readonly time: string;
  readonly doseMl: number;
  readonly weightKg: number;
  readonly by: string;
  readonly route: string;
  /** Whether dose, route and species were the label's own, so that its withdrawal holds. */
  readonly byLabel: boolean;
  /** The vet whose own dose was given, so that the vet's withdrawal holds instead. */
  readonly vet: string;
  /** An ISO date, "not permitted", or that only a vet can say. */
  readonly meatClear: string;
  readonly milkClear: string;
  readonly note: string;
  readonly removed: boolean;
}

/** What a person decided for an animal on a day, with the values it was decided on. */
export interface Decision {
  readonly treat: boolean;
  readonly reason: string;
  readonly values: Readonly<Record<string, Value>>;
}

export interface AboutFacts {
  readonly title: string;
  readonly place: string;
  /** What the animals together are called: flock, herd, mob. */
  readonly herdWord: string;
  readonly template: string;
  readonly weightUnit: 'kg' | 'lb';
  readonly decimalMark: '.' | ',';
  /** At least this share (0–1) is left untreated, else a warning. */
  readonly keepUntreated: number;
  readonly nextSample: string;
  readonly demo: boolean;
}

/**
 * The notebook: plain JSON, versioned, the only truth. Everything that a person can change stands in
 * a stamped cell, reached by a path `[table, id, field]` (readings: `['readings', day, row, column]`).
 * Derived figures are never stored.
 */
export interface Notebook {
  readonly format: 'sampling-daybook';
  readonly version: 1;
  /** The version of the formula language in stored formulas. */
  readonly language: 1;
  readonly id: string;
  readonly seen: Seen;
  /** One record, `notebook`. */
  readonly about: Table<AboutFacts>;
  /** One record, `default`: what a new day copies. */
  readonly defaults: Table<DayCopy>;
  readonly animals: Table<AnimalFacts>;
  /** `groups[animalId][date]`: the group the animal is in from that date on. */
  readonly groups: Readonly<Record<string, Readonly<Record<string, Cell<string | null>>>>>;
  readonly columns: Table<ColumnFacts>;
  readonly days: Table<DayFacts>;
  /** `bench[dayId][rowId]`, `yard[dayId][rowId]`: fractional keys; absent means the animals' order. */
  readonly bench: Readonly<Record<string, Readonly<Record<string, Cell<string | null>>>>>;
  readonly yard: Readonly<Record<string, Readonly<Record<string, Cell<string | null>>>>>;
  readonly cups: Table<CupFacts>;
  readonly limits: Table<LimitFacts>;
  /** `settings[dayId or 'default'][limitId]`. */
  readonly settings: Readonly<Record<string, Readonly<Record<string, Cell<number | null>>>>>;
  readonly figures: Table<FigureFacts>;
  readonly blocks: Table<BlockFacts>;
  readonly products: Table<ProductFacts>;
  readonly treatments: Table<TreatmentFacts>;
  /** `decisions[dayId][animalId]`. */
  readonly decisions: Readonly<Record<string, Readonly<Record<string, Cell<Decision | null>>>>>;
  readonly readings: Readings;
}

/** `readings[dayId][animalId or cupId][columnId]`. A cell holding `null` was cleared. */
export type Readings = Readonly<Record<string, DayReadings>>;
export type DayReadings = Readonly<Record<string, RowReadings>>;
export type RowReadings = Readonly<Record<string, Cell<Reading | null>>>;

/** The tables whose paths are `[table, id, field]`. */
export type TableName = Exclude<
  keyof Notebook,
  'format' | 'version' | 'language' | 'id' | 'seen' | 'readings'
>;

/** A record's facts as read for use: its newest values, unwritten fields absent, and its id. */
export type Known<T> = Partial<T> & { readonly id: string };
export type Animal = Known<AnimalFacts> & { readonly tag: string };
export type Column = Known<ColumnFacts> & { readonly key: string; readonly kind: ColumnKind };
export type SamplingDay = Known<DayFacts> & { readonly date: string };
export type Cup = Known<CupFacts>;
export type Limit = Known<LimitFacts> & { readonly key: string };
export type Figure = Known<FigureFacts> & { readonly key: string; readonly formula: string };
export type Block = Known<BlockFacts> & { readonly kind: BlockKind };
export type Product = Known<ProductFacts>;
export type Treatment = Known<TreatmentFacts>;
export type About = Partial<AboutFacts>;
export type { Fields };
