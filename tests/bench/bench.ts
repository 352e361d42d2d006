/**
 * What a file `*.bench.ts` in this folder exports: `name`, and `run`, which measures and returns
 * rows. A benchmark is a report, never a test: nothing fails because a machine is slow.
 */
export interface Bench {
  readonly name: string;
  readonly run: () => Promise<readonly Row[]>;
}

/** One line of the report. Times are given in words with their unit (`6.7 ms p50`). */
export interface Row {
  readonly what: string;
  readonly measured: string;
  /** What it must stay under to feel immediate, or to fit the memory of a small computer. */
  readonly budget: string;
  /** The same work by the calculation engine alone, where that comparison says something. */
  readonly bareEngine?: string;
  readonly note?: string;
}
