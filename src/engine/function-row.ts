import type { Kind } from './kinds.ts';

/**
 * What an argument may be. `list`: a whole list (`herd.epg`, `{1,2}`) or one value; `list or number`: a
 * number for all, or a list with one for each; `name`: a bare own-row name, asked whether it is known.
 */
export type Takes = 'number' | 'text' | 'truth' | 'any' | 'list' | 'list or number' | 'name';

/** A function as the compiler needs to know it. */
export interface FunctionRow {
  /** As people write it. */
  readonly name: string;
  /** As the calculating engine knows it. */
  readonly engineName: string;
  /** `args`: as the arguments from the second on (`IF`) are. */
  readonly gives: Kind | 'args';
  readonly takes: readonly Takes[];
  /** How many of `takes` must be given. */
  readonly least: number;
  /** Repeated as often as wanted after `takes`. */
  readonly rest?: readonly Takes[];
  /** A name handed straight to one of these positions may be empty: the function decides itself. */
  readonly optionalFrom: number;
  /** No answer where its lists hold nothing at all (a sum of nothing is not 0). */
  readonly needsSome?: true;
}
