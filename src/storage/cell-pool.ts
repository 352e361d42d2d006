import type { Cell, Stamp } from '../../shared/cell.ts';
import type { Reading } from '../../shared/reading.ts';

type Typed = Cell<Reading | null>;

interface Pool {
  readonly stamp: Stamp;
  readonly byText: Map<string, Typed>;
}

/** Imports kept in mind at a time. */
const mostPools = 16;

/**
 * Lets equal cells of one edit be one object. After an import of 10,000 animals and 12 days most
 * cells share a stamp, and many a count; read from text each would take its own 200 bytes. Cells are
 * values, so nothing can tell the difference.
 */
export class CellPool {
  private readonly pools: Pool[] = [];
  private oldest = 0;
  private lone: Stamp | null = null;

  /** The same cell, or an equal one that was given before. */
  share(cell: Typed): Typed {
    const [entry] = cell;
    const value = entry?.[0];
    if (cell.length !== 1 || !entry || !value) return cell;
    const pool = this.poolOf(entry[1]);
    if (!pool) return cell;
    const there = pool.byText.get(value.text);
    if (there && isSame(there[0]?.[0], value)) return there;
    const shared: Typed = [[value, pool.stamp]];
    if (!there) pool.byText.set(value.text, shared);
    return shared;
  }

  /** A stamp is worth a pool once it comes twice in a row: typed cells each bear their own. */
  private poolOf(stamp: Stamp): Pool | null {
    const known = this.pools.find((pool) => isSameStamp(pool.stamp, stamp));
    if (known) return known;
    const isSecond = this.lone !== null && isSameStamp(this.lone, stamp);
    this.lone = stamp;
    if (!isSecond) return null;
    const pool: Pool = { stamp, byText: new Map() };
    this.pools[this.oldest] = pool;
    this.oldest = (this.oldest + 1) % mostPools;
    return pool;
  }
}

function isSameStamp(a: Stamp, b: Stamp): boolean {
  return a[0] === b[0] && a[1] === b[1] && a[2] === b[2];
}

/** Part by part, those of a later program among them; written out since it is run a million times. */
function isSame(a: Reading | null | undefined, b: Reading): boolean {
  if (!a) return false;
  for (const part in b) if (a[part as keyof Reading] !== b[part as keyof Reading]) return false;
  for (const part in a) if (!(part in b)) return false;
  return true;
}
