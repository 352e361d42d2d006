import { isFault, type Fault } from '../../shared/value.ts';
import { knownValues } from './known-values.ts';

/**
 * Arithmetic mean of the animals counted. Unit: that of the list (epg). Missing animals are left out, a
 * count of 0 is not. Faults: nobody counted, a negative figure. Arithmetic, not geometric, because the
 * pasture receives the sum of the eggs.
 *
 * Source: elementary; arithmetic means as advised for egg counts (Coles et al. 1992, Vet Parasitol
 * 44:35–44, second-hand).
 */
export function herdMean(values: readonly (number | null)[]): number | Fault {
  const known = knownValues(values);
  return isFault(known) ? known : mean(known);
}

/** Middle value of the animals counted (mean of the two middle ones for an even number). Rules as `herdMean`. */
export function herdMedian(values: readonly (number | null)[]): number | Fault {
  const known = knownValues(values);
  return isFault(known) ? known : quantileOf(known, 0.5);
}

/** Plain mean of a non-empty list without gaps. */
export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Sample variance (divisor n − 1) of a list of two or more; NaN for fewer. */
export function variance(values: readonly number[]): number {
  return covariance(values, values);
}

/** Sample covariance (divisor n − 1) of two lists of equal length, two or more; NaN for fewer. */
export function covariance(xs: readonly number[], ys: readonly number[]): number {
  const meanX = mean(xs);
  const meanY = mean(ys);
  const sum = xs.reduce((total, x, i) => total + (x - meanX) * ((ys[i] ?? NaN) - meanY), 0);
  return sum / (xs.length - 1);
}

/**
 * Quantile of a non-empty list, linear between neighbours: place 1 + (n − 1)p. Type 7 of Hyndman & Fan
 * 1996, Am Stat 50:361–365 (memory); the default of R and of most spreadsheets.
 */
export function quantileOf(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const place = (sorted.length - 1) * p;
  const lower = sorted[Math.floor(place)] ?? NaN;
  const upper = sorted[Math.ceil(place)] ?? NaN;
  return lower + (upper - lower) * (place - Math.floor(place));
}
