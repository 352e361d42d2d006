/** What of the rows is in sight: pixels. `height` is that of the rows alone, below the headings. */
export interface Sight {
  readonly top: number;
  readonly left: number;
  readonly height: number;
  readonly width: number;
}

/**
 * Rows drawn beyond those in sight, on each side: while a hand scrolls as many as leave no gap, while keys move
 * the focus none, since each row drawn makes every key dearer and a key draws what it brings in sight.
 */
export const rowsBeyond = { scrolled: 6, typed: 0 } as const;

/** The rows to draw, as `[from, to)`. */
export function rowsDrawn(
  sight: Sight,
  rowHeight: number,
  count: number,
  beyond: number,
): readonly [number, number] {
  const from = Math.max(0, Math.floor(sight.top / rowHeight) - beyond);
  const to = Math.ceil((sight.top + sight.height) / rowHeight) + beyond;
  return [Math.min(from, count), Math.min(count, Math.max(from, to))];
}

/** Whole rows in sight, at least one. */
export function rowsInSight(sight: Sight, rowHeight: number): number {
  return Math.max(1, Math.floor(sight.height / rowHeight));
}

/** The offset that brings `[start, start + size)` into `[offset, offset + room)`, moving least. */
export function offsetToShow(offset: number, room: number, start: number, size: number): number {
  if (start < offset) return start;
  if (start + size > offset + room) return Math.min(start, start + size - room);
  return offset;
}
