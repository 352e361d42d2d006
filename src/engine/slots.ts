import type { RowId } from '../../shared/ref.ts';

/**
 * The line that each animal has in every sheet, given out once and never to another: taking lines out of the
 * calculating engine is slow beyond use, blanking them is quick.
 */
export class Slots {
  private readonly slots = new Map<RowId, number>();
  private readonly rows: RowId[] = [];

  get count(): number {
    return this.rows.length;
  }

  find(row: RowId): number | undefined {
    return this.slots.get(row);
  }

  take(row: RowId): number {
    let slot = this.slots.get(row);
    if (slot === undefined) {
      slot = this.rows.length;
      this.rows.push(row);
      this.slots.set(row, slot);
    }
    return slot;
  }

  rowAt(slot: number): RowId | undefined {
    return this.rows[slot];
  }
}
