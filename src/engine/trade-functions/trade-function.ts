import type { Fault } from '../../../shared/value.ts';
import type { Takes } from '../function-row.ts';

/** One argument of a trade function. `unit` is part of the help: "mL", "epg", "raw eggs". */
export interface Param {
  readonly name: string;
  readonly takes: Extract<Takes, 'number' | 'text' | 'list' | 'list or number'>;
  readonly unit: string;
  readonly optional?: true;
}

/** A list as the statistics take it: one entry for each slot, `null` where nothing is known. */
export type List = readonly (number | null)[];

/** The arguments of one call, already checked against the function's row. */
export interface Given {
  /** A number; missing ones never get here. */
  number(index: number): number;
  text(index: number): string;
  list(index: number): List;
  /** A number or `undefined` where an optional argument was left out or is empty. */
  numberIf(index: number): number | undefined;
  textIf(index: number): string | undefined;
  listOrNumberIf(index: number): List | number | undefined;
  /** Every argument as a number or `undefined`, for functions that take any number of them. */
  numbers(): readonly (number | undefined)[];
}

/**
 * A trade function: how it is called, and the call into the statistics. It answers with a figure, a text,
 * `null` for "no answer", or a fault; it never throws.
 */
export interface TradeFunction {
  readonly name: string;
  readonly params: readonly Param[];
  /** Repeated after `params`. */
  readonly rest?: readonly Param[];
  readonly gives: 'number' | 'text';
  readonly call: (given: Given) => number | string | null | Fault;
}

export function needed(name: string, unit: string, takes: Param['takes'] = 'number'): Param {
  return { name, unit, takes };
}

export function optional(name: string, unit: string, takes: Param['takes'] = 'number'): Param {
  return { name, unit, takes, optional: true };
}
