import type { Value } from '../../shared/value.ts';

/** A derived cell as a number; `null` when it is missing, text or a fault. Zero stays zero. */
export function figureOf(value: Value | undefined): number | null {
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}
