import type { Change } from '../../shared/edit.ts';
import type { Engine } from '../../shared/derived.ts';
import type { RowId } from '../../shared/ref.ts';

/** An engine that works nothing out and remembers what it was told. */
export interface StillEngine extends Engine {
  readonly opened: string[];
  readonly applied: (readonly Change[])[];
  readonly heldBack: (RowId | null)[];
}

export function stillEngine(): StillEngine {
  const opened: string[] = [];
  const applied: (readonly Change[])[] = [];
  const heldBack: (RowId | null)[] = [];
  return {
    opened,
    applied,
    heldBack,
    open: (_, day) => {
      opened.push(day);
      return Promise.resolve();
    },
    apply: (_, changes) => {
      applied.push(changes);
      return Promise.resolve([]);
    },
    holdBack: (row) => {
      heldBack.push(row);
      return Promise.resolve([]);
    },
    value: () => null,
    criteria: () => [],
    dayColumn: () => Promise.resolve(new Map()),
    figures: () => Promise.resolve([]),
    evaluate: () => null,
    check: () => null,
    explain: () => null,
  };
}
