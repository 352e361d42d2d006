import type { Clock } from './pause.ts';

/** How long a slice should take: a page that draws sixty times a second has 16 ms for each drawing. */
const SLICE = 10;
const FIRST_ROWS = 8;
const LEAST_ROWS = 4;
const MOST_ROWS = 150;

/**
 * How many rows are written in one go, learnt from how long the former goes took: a slow machine, and code that
 * has only just begun to run, get small ones.
 */
export class Pace {
  private wished = FIRST_ROWS;

  constructor(private readonly clock: Clock) {}

  get rows(): number {
    return this.wished;
  }

  /** Does one go with so many rows. */
  go<T>(rows: number, work: () => T): T {
    const start = this.clock();
    const done = work();
    const took = Math.max(0.1, this.clock() - start);
    const fitting = Math.floor((rows * SLICE) / took);
    // One slow go may be the clearing of memory, one quick go may have had nothing to do.
    const most = Math.min(MOST_ROWS, this.wished * 2);
    this.wished = Math.max(LEAST_ROWS, Math.floor(this.wished / 3), Math.min(most, fitting));
    return done;
  }
}
