/**
 * When and where something was written: milliseconds since 1970 (UTC), a counter that parts writes
 * within one millisecond, and the device that wrote. Stamps are totally ordered and never reused.
 */
export type Stamp = readonly [ms: number, counter: number, device: string];

/**
 * What one place of the notebook holds: the values not yet superseded, newest first. One entry is
 * the ordinary case; more than one is a clash between two copies, shown until a person chooses.
 */
export type Cell<T> = readonly (readonly [value: T, stamp: Stamp])[];

/** A record whose every field is a cell. A field that was never written is absent. */
export type Fields<T> = { readonly [K in keyof T]?: Cell<T[K] | null> };

/** A table of records by id. */
export type Table<T> = Readonly<Record<string, Fields<T>>>;

/** For each device, the greatest `[ms, counter]` this copy has taken in from it. */
export type Seen = Readonly<Record<string, readonly [ms: number, counter: number]>>;

/** Anything that plain JSON can hold. */
export type Json =
  string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };
