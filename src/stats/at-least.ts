/** Relative slack of every comparison with a limit. */
export const TOLERANCE = 1e-9;

/**
 * True when `x` has reached `limit`: "1,000 or more". Inclusive, with a relative tolerance of 1e-9, so
 * that a figure that is 1,000 on paper but 999.9999999999999 in binary arithmetic counts as reached.
 *
 * One rule serves treatment criteria, shares, verdicts and dose steps. Units: any, both the same.
 * Missing: callers leave missing figures out first; NaN is never at least anything.
 */
export function atLeast(x: number, limit: number): boolean {
  return x >= limit - TOLERANCE * Math.abs(limit);
}
