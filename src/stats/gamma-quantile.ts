import gamma from '@stdlib/stats-base-dists-gamma';

/**
 * Quantile of the gamma distribution with the given shape and scale 1; `p` is the chance below.
 *
 * The library's inverse is off by up to 2e-4 (relative) for shapes of about 1,000 and more at high `p`,
 * while its distribution function is good to 1e-14. So its answer is only the start: Newton steps
 * against the distribution function follow, kept inside a bracket. Chi-square with `df` degrees of
 * freedom is twice the gamma of shape `df / 2`. Missing and bad input: callers check first.
 */
export function gammaQuantile(p: number, shape: number): number {
  let x = gamma.quantile(p, shape, 1);
  let below = 0;
  let above = Infinity;
  for (let step = 0; step < 60 && x > 0 && Number.isFinite(x); step++) {
    const off = gamma.cdf(x, shape, 1) - p;
    if (off === 0) return x;
    if (off < 0) below = x;
    else above = x;
    const slope = gamma.pdf(x, shape, 1);
    let next = x - off / slope;
    if (!(next > below && next < above)) next = above === Infinity ? x * 2 : (below + above) / 2;
    // Newton's steps shrink fast; once they are at the level of rounding, more steps only wander.
    if (Math.abs(next - x) <= 1e-13 * x) return next;
    x = next;
  }
  return x;
}
