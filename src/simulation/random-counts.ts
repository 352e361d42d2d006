import { stirlingRest } from '../stats/stirling.ts';
import type { Random } from './seeded-random.ts';

/**
 * One draw from the standard normal law.
 * Polar method of Marsaglia & Bray 1964, SIAM Rev 6:260–264 (memory); the second draw of a pair is let go, so
 * that the stream has no hidden state.
 */
export function randomNormal(random: Random): number {
  for (;;) {
    const x = 2 * random() - 1;
    const y = 2 * random() - 1;
    const square = x * x + y * y;
    if (square > 0 && square < 1) return x * Math.sqrt((-2 * Math.log(square)) / square);
  }
}

/**
 * One draw from the gamma law of the given shape (above 0) and scale 1.
 * Marsaglia & Tsang 2000, ACM Trans Math Softw 26:363–372 (memory); shapes below 1 by their power step.
 */
export function randomGamma(random: Random, shape: number): number {
  if (shape < 1) {
    return randomGamma(random, shape + 1) * Math.exp(Math.log(1 - random()) / shape);
  }
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = randomNormal(random);
    const root = 1 + c * x;
    if (root <= 0) continue;
    const v = root * root * root;
    const u = 1 - random();
    if (Math.log(u) < 0.5 * x * x + d * (1 - v + Math.log(v))) return d * v;
  }
}

/** Above this mean, counting up step by step takes longer than the rejection method. */
const STEPWISE_UP_TO = 30;

/**
 * One draw from the Poisson law of the given mean (0 or more).
 * Up to 30 by inversion, step by step; above, the transformed rejection method PTRS of Hörmann 1993,
 * Insurance Math Econ 12:39–45 (memory).
 */
export function randomPoisson(random: Random, mean: number): number {
  if (mean <= 0) return 0;
  return mean <= STEPWISE_UP_TO ? stepwise(random, mean) : rejected(random, mean);
}

/** Negative binomial draw with the given mean and k (Infinity: Poisson): a gamma mean, then a Poisson count. */
export function randomNegativeBinomial(random: Random, mean: number, k: number): number {
  return randomPoisson(random, k === Infinity ? mean : (randomGamma(random, k) * mean) / k);
}

function stepwise(random: Random, mean: number): number {
  let left = random();
  let chance = Math.exp(-mean);
  let count = 0;
  // The bound is beyond any count that 53 bits can reach; it stops rounding from looping for ever.
  while (left >= chance && count < 400) {
    left -= chance;
    count += 1;
    chance *= mean / count;
  }
  return count;
}

function rejected(random: Random, mean: number): number {
  const logMean = Math.log(mean);
  const b = 0.931 + 2.53 * Math.sqrt(mean);
  const a = -0.059 + 0.02483 * b;
  const inverseAlpha = 1.1239 + 1.1328 / (b - 3.4);
  const quick = 0.9277 - 3.6224 / (b - 2);
  for (;;) {
    const u = random() - 0.5;
    const v = 1 - random();
    const us = 0.5 - Math.abs(u);
    const count = Math.floor(((2 * a) / us + b) * u + mean + 0.43);
    if (us >= 0.07 && v <= quick) return count;
    if (count < 0 || (us < 0.013 && v > us)) continue;
    const bound = Math.log((v * inverseAlpha) / (a / (us * us) + b));
    if (bound <= -mean + count * logMean - logFactorial(count)) return count;
  }
}

/** ln n!. */
function logFactorial(n: number): number {
  const z = n + 1;
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + stirlingRest(z);
}
