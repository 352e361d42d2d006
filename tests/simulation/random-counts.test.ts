import { describe, expect, it } from 'vitest';
import {
  randomGamma,
  randomNegativeBinomial,
  randomNormal,
  randomPoisson,
} from '../../src/simulation/random-counts.ts';
import { seededRandom, seedOfPart, type Random } from '../../src/simulation/seeded-random.ts';
import { gammaAbove, gammaBelow } from '../../src/stats/gamma-law.ts';

const DRAWS = 40_000;

/** Draws from a fixed seed, so that each of these tests always sees the same numbers. */
function draws(seed: number, draw: (random: Random) => number, number = DRAWS): number[] {
  const random = seededRandom(seed);
  return Array.from({ length: number }, () => draw(random));
}

/** Largest distance between the drawn and the true chance of being at most x, in units where 1.95 is p = 0.001. */
function kolmogorov(sorted: readonly number[], below: (x: number) => number): number {
  let gap = 0;
  for (const [i, x] of sorted.entries()) {
    const chance = below(x);
    gap = Math.max(gap, chance - i / sorted.length, (i + 1) / sorted.length - chance);
  }
  return gap * Math.sqrt(sorted.length);
}

/** Asserts that an event of chance p came as often as it should, within 4 standard errors. */
function expectShare(seen: number, of: number, p: number) {
  expect(Math.abs(seen / of - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / of) + 1e-12);
}

describe('seededRandom(seed)', () => {
  it('is the same stream for the same seed and another for another', () => {
    expect(draws(7, (r) => r(), 50)).toEqual(draws(7, (r) => r(), 50));
    const firsts = new Set<number>();
    for (let seed = -100; seed < 100; seed++) firsts.add(seededRandom(seed)());
    for (const seed of [0.5, 1e9, 1e15, 2 ** 32, 2 ** 33]) firsts.add(seededRandom(seed)());
    expect(firsts.size).toBe(205);
  });

  it('is even from 0 to 1, without a step to the next draw', () => {
    const numbers = draws(11, (r) => r());
    expect(Math.min(...numbers)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...numbers)).toBeLessThan(1);
    expect(
      kolmogorov(
        numbers.toSorted((a, b) => a - b),
        (x) => x,
      ),
    ).toBeLessThan(1.95);
    let lagged = 0;
    for (let i = 1; i < DRAWS; i++) {
      lagged += ((numbers[i - 1] ?? 0) - 0.5) * ((numbers[i] ?? 0) - 0.5);
    }
    // Correlation of neighbours: standard error 1/√n.
    expect(Math.abs((12 * lagged) / DRAWS)).toBeLessThan(4 / Math.sqrt(DRAWS));
  });

  it('seedOfPart gives parts seeds of their own', () => {
    const seeds = new Set<number>();
    for (let seed = 0; seed < 20; seed++) {
      for (let part = 0; part < 50; part++) seeds.add(seedOfPart(seed, part));
    }
    expect(seeds.size).toBe(1000);
    expect(seedOfPart(3, 4)).toBe(seedOfPart(3, 4));
    expect(seedOfPart(3, 4)).not.toBe(seedOfPart(4, 3));
  });
});

describe('draws from the laws of egg counts', () => {
  it.each([0.05, 0.5, 1, 3.7, 60])('gamma of shape %f', (shape) => {
    const sorted = draws(5, (r) => randomGamma(r, shape)).sort((a, b) => a - b);
    expect(kolmogorov(sorted, (x) => gammaBelow(x, shape))).toBeLessThan(1.95);
  });

  it('normal: mean 0, variance 1, 2.5 % above 1.96', () => {
    const numbers = draws(6, randomNormal);
    const mean = numbers.reduce((sum, x) => sum + x, 0) / DRAWS;
    const square = numbers.reduce((sum, x) => sum + x * x, 0) / DRAWS;
    expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(DRAWS));
    expect(Math.abs(square - 1)).toBeLessThan(4 * Math.sqrt(2 / DRAWS));
    expectShare(numbers.filter((x) => x > 1.959964).length, DRAWS, 0.025);
  });

  it.each([0.02, 0.7, 5, 29.9, 30.1, 170, 5000])('Poisson of mean %f, count by count', (mean) => {
    const counts = draws(8, (r) => randomPoisson(r, mean));
    expect(counts.every((x) => Number.isInteger(x) && x >= 0)).toBe(true);
    // P(X ≤ c) is the chance that a gamma of shape c + 1 is above the mean.
    const spread = Math.sqrt(mean);
    for (let c = Math.max(0, Math.floor(mean - 3 * spread)); c <= mean + 3 * spread + 1;) {
      expectShare(counts.filter((x) => x <= c).length, DRAWS, gammaAbove(mean, c + 1));
      c += Math.max(1, Math.round(spread / 4));
    }
  });

  it.each([
    [2, 0.5],
    [10, 0.25],
    [0.3, 4],
    [3, Infinity],
  ])('negative binomial of mean %f and k %f: no eggs as often as (1 + m/k)^−k', (mean, k) => {
    const counts = draws(9, (r) => randomNegativeBinomial(r, mean, k));
    const none = k === Infinity ? Math.exp(-mean) : (1 + mean / k) ** -k;
    expectShare(counts.filter((x) => x === 0).length, DRAWS, none);
    // One egg: k·(m/k)/(1 + m/k)^(k+1), the second term of the same law.
    const one = k === Infinity ? mean * none : (mean / (1 + mean / k)) * none;
    expectShare(counts.filter((x) => x === 1).length, DRAWS, one);
    const average = counts.reduce((sum, x) => sum + x, 0) / DRAWS;
    const variance = mean + (mean * mean) / k;
    expect(Math.abs(average - mean)).toBeLessThan(4 * Math.sqrt(variance / DRAWS));
  });

  it('a mean of 0 gives no eggs', () => {
    expect(draws(1, (r) => randomPoisson(r, 0), 10)).toEqual(new Array<number>(10).fill(0));
  });
});
