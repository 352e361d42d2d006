import { logGap, stirlingRest } from './stirling.ts';

/**
 * The gamma law with scale 1, from which the limits and chances of egg counts come: a Poisson count of mean
 * x reaches n with the chance that a gamma of shape n is below x, and chi-square with `df` degrees of freedom is
 * twice the gamma of shape df/2.
 *
 * Own work, because the library tried first (@stdlib 0.3.1) errs by up to 1 % in the distribution function
 * for shapes above 1,000 where x is above the shape, which herd totals reach. Series below the shape, continued
 * fraction above it (Abramowitz & Stegun 6.5.29 and 6.5.31, memory); checked against R and scipy.
 * Bad input: callers check first; shape above 0, x 0 or more, p between 0 and 1.
 */
const MOST_TERMS = 1_000_000;

/** Chance below x. */
export function gammaBelow(x: number, shape: number): number {
  if (x <= 0) return 0;
  return x < shape + 1 ? lowerSeries(x, shape) : 1 - upperFraction(x, shape);
}

/** Chance above x, with all its figures where it is small. */
export function gammaAbove(x: number, shape: number): number {
  if (x <= 0) return 1;
  return x < shape + 1 ? 1 - lowerSeries(x, shape) : upperFraction(x, shape);
}

/** The x below which a gamma of this shape falls with chance p. */
export function gammaQuantile(p: number, shape: number): number {
  // Newton steps in ln x against the smaller tail, kept in a bracket; halving where a step leaves it.
  const low = p < 0.5;
  const excess = (x: number): number =>
    low ? gammaBelow(x, shape) - p : 1 - p - gammaAbove(x, shape);
  let logX = Math.log(firstGuess(p, shape));
  let below = -Infinity;
  let above = Infinity;
  for (let turn = 0; turn < 200; turn++) {
    const x = Math.exp(logX);
    if (x === 0) return 0;
    const off = excess(x);
    if (off === 0) return x;
    if (off < 0) below = logX;
    else above = logX;
    const step = off / (density(x, shape) * shape);
    // Beside the root the steps shrink by squares: after one this small only rounding is left.
    if (Math.abs(step) <= 1e-9) return x * (1 - step);
    let next = logX - step;
    if (!(next > below && next < above)) {
      next = below === -Infinity ? logX - 2 : above === Infinity ? logX + 2 : (below + above) / 2;
    }
    logX = next;
  }
  return Math.exp(logX);
}

/** x^shape·e^−x/Γ(shape + 1): the density times x/shape. Near the shape, where large terms cancel, by their gap. */
function density(x: number, shape: number): number {
  const v = (x - shape) / shape;
  const exponent =
    Math.abs(v) < 0.3 ? -shape * logGap(v) : shape * Math.log(x / shape) - (x - shape);
  return Math.exp(exponent - stirlingRest(shape)) / Math.sqrt(2 * Math.PI * shape);
}

function lowerSeries(x: number, shape: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; n < MOST_TERMS && term > sum * 1e-17; n++) {
    term *= x / (shape + n);
    sum += term;
  }
  return density(x, shape) * sum;
}

/** Lentz's way of working out the continued fraction. */
function upperFraction(x: number, shape: number): number {
  const tiny = 1e-300;
  let b = x + 1 - shape;
  let c = 1 / tiny;
  let d = 1 / (b === 0 ? tiny : b);
  let value = d;
  for (let n = 1; n < MOST_TERMS; n++) {
    const a = n * (shape - n);
    b += 2;
    d = a * d + b;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = b + a / c;
    if (Math.abs(c) < tiny) c = tiny;
    value *= c * d;
    if (Math.abs(c * d - 1) < 1e-16) break;
  }
  return density(x, shape) * shape * value;
}

/** Wilson & Hilferty 1931 for shapes from 1 on, the leading power of x below. */
function firstGuess(p: number, shape: number): number {
  if (shape >= 1) {
    const cube = 1 - 1 / (9 * shape) + roughNormal(p) / (3 * Math.sqrt(shape));
    if (cube > 0.1) return shape * cube * cube * cube;
  }
  // p ≈ x^shape/Γ(shape + 1)
  const logGamma =
    (shape + 0.5) * Math.log(shape + 1) -
    shape -
    1 +
    0.5 * Math.log(2 * Math.PI) +
    stirlingRest(shape + 1);
  return Math.exp((Math.log(p) + logGamma) / shape);
}

/** Normal quantile to about 0.0005, enough to start from: Abramowitz & Stegun 26.2.23 (memory). */
function roughNormal(p: number): number {
  const t = Math.sqrt(-2 * Math.log(Math.min(p, 1 - p)));
  const over = 2.515517 + t * (0.802853 + t * 0.010328);
  const under = 1 + t * (1.432788 + t * (0.189269 + t * 0.001308));
  return (p < 0.5 ? -1 : 1) * (t - over / under);
}
