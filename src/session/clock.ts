import type { Stamp } from '../../shared/cell.ts';
import { compareStamps } from '../notebook/cell.ts';

/**
 * Gives stamps that only ever grow, also where the device's clock is set back or another copy's clock
 * runs ahead: never below the greatest stamp seen.
 */
export class Clock {
  private greatest: Stamp;

  constructor(
    private readonly device: string,
    private readonly now: () => number,
  ) {
    this.greatest = [0, 0, device];
  }

  /** Takes in a stamp from elsewhere. */
  saw(stamp: Stamp): void {
    if (compareStamps(stamp, this.greatest) > 0) this.greatest = stamp;
  }

  next(): Stamp {
    const ms = Math.floor(this.now());
    const [last, counter] = this.greatest;
    this.greatest = ms > last ? [ms, 0, this.device] : [last, counter + 1, this.device];
    return this.greatest;
  }
}
