import type { Change } from '../shared/edit.ts';

/** Whether changes may have made or settled a clash: only cells of several values can. */
export function mayClash(changes: readonly Change[]): boolean {
  return changes.some(({ from, to }) => (from?.length ?? 0) > 1 || (to?.length ?? 0) > 1);
}
