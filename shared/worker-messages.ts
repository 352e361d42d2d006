import type { Fault } from './value.ts';

/** A dewormer check to be tried out many times, for several drugs, numbers of animals and factors. */
export interface PlanAsked {
  /** True reductions in % to try: a drug that works, a drug that fails. */
  readonly efficacies: readonly number[];
  /** Numbers of animals counted on both days. */
  readonly animals: readonly number[];
  /** epg per egg seen, the same on both days. */
  readonly factors: readonly number[];
  /** True mean of the herd before treatment, epg. */
  readonly meanEpg: number;
  /** How unevenly the animals shed (Infinity: all alike). */
  readonly k: number;
  /** Expected reduction and lower threshold in %. */
  readonly expected: number;
  readonly threshold: number;
  /** Level of the limits, 0.9 for 90 %. */
  readonly level: number;
  /** Checks tried for each line. */
  readonly runs: number;
  readonly seed: number;
}

/** What a check can say; `no verdict` where too few animals shed, or one carries most of the eggs. */
export type PlannedAnswer =
  'susceptible' | 'low resistant' | 'resistant' | 'inconclusive' | 'no verdict';

/** What a check of `animals` animals at `factor` would say of a drug of that true reduction. */
export interface PlannedRow {
  readonly efficacy: number;
  readonly animals: number;
  readonly factor: number;
  /** Eggs that would be seen before treatment, all animals together, on average. */
  readonly eggsExpected: number;
  readonly runs: number;
  /** How often each answer came; the five add up to `runs`. */
  readonly counts: Readonly<Record<PlannedAnswer, number>>;
}

/** Where a plan stands: checks tried out of all, and the lines that are complete. */
export interface PlanStand {
  readonly done: number;
  readonly runs: number;
  readonly rows: readonly PlannedRow[];
}

/**
 * Everything that page and worker say to each other. `id` is the page's number for one plan, so that what
 * comes late about a former one can be told apart.
 */
export type WorkerMessage =
  /** The page asks: try this plan out, in place of any other. */
  | { readonly kind: 'try plan'; readonly id: number; readonly plan: PlanAsked }
  /** The page asks: leave off, what is complete is enough. */
  | { readonly kind: 'stop plan'; readonly id: number }
  /** The worker tells how far it has come, several times a second. */
  | { readonly kind: 'plan progress'; readonly id: number; readonly stand: PlanStand }
  /** The worker tells that every line is complete. */
  | { readonly kind: 'plan done'; readonly id: number; readonly stand: PlanStand }
  /** The worker tells that it has left off, asked to or for a newer plan, and where it stood. */
  | { readonly kind: 'plan stopped'; readonly id: number; readonly stand: PlanStand }
  /** The worker tells that the plan's numbers make no check, and what to change. */
  | { readonly kind: 'plan refused'; readonly id: number; readonly fault: Fault };

/**
 * Everything that the page and the worker that keeps its files for use offline say to each other. A version
 * is a short text that differs whenever one of the built files does.
 */
export type OfflineMessage =
  /** The page asks: which version is in use here, and which is the newest one complete? */
  | { readonly kind: 'which version' }
  /** The worker answers, and tells of itself whenever a newer version has become complete. */
  | { readonly kind: 'versions'; readonly inUse: string; readonly newest: string }
  /** The page asks, because the person said so: use the newest version from the next loading on. */
  | { readonly kind: 'take newest' }
  /** The worker tells every page that this version is in use from the next loading on. */
  | { readonly kind: 'taken'; readonly version: string };
