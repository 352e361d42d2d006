import tQuantile from '@stdlib/stats-base-dists-t-quantile';

const remembered = new Map<string, number>();

/**
 * Quantile of Student's t; `p` is the chance below, `df` the degrees of freedom. Remembered, since a
 * simulation asks for the same few again and again. Callers check p and df first.
 */
export function studentQuantile(p: number, df: number): number {
  const key = `${p}:${df}`;
  let value = remembered.get(key);
  if (value === undefined) {
    if (remembered.size > 1000) remembered.clear();
    remembered.set(key, (value = tQuantile(p, df)));
  }
  return value;
}
