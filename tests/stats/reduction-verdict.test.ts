import { describe, expect, it } from 'vitest';
import type { Pair } from '../../src/stats/paired-counts.ts';
import { reductionVerdict, verdictObstacle } from '../../src/stats/reduction-verdict.ts';
import { expectFault } from './check-values.ts';

describe('reductionVerdict(low, high, expected, threshold)', () => {
  // Kaplan et al. 2023, Vet Parasitol 318:109936, as restated by the AAEP 2024 guideline (read); what happens at exact
  // equality, and the class "low resistant", are from memory.
  it.each([
    ['susceptible', 92, 99.5],
    ['low resistant', 92, 98],
    ['resistant', 70, 98],
    ['inconclusive', 80, 99.5],
    ['susceptible', 90, 99], // both on the line: high = expected is not below, low = threshold has reached
    ['inconclusive', 89.9, 99],
    ['low resistant', 90, 98.9],
    ['resistant', 89.9, 98.9],
    ['susceptible', 99.2, 100],
    ['resistant', -140, -10],
  ] as const)('is %s for limits %f to %f, expected 99, threshold 90', (verdict, low, high) => {
    expect(reductionVerdict(low, high, 99, 90)).toBe(verdict);
  });

  it('takes a hair of binary arithmetic for equality', () => {
    expect(reductionVerdict(90 - 1e-10, 99 - 1e-10, 99, 90)).toBe('susceptible');
  });

  it('is a fault where the numbers make no test', () => {
    expectFault(reductionVerdict(90, 80, 99, 90), 'bad-limits');
    expectFault(reductionVerdict(80, 90, 90, 90), 'bad-threshold');
    expectFault(reductionVerdict(80, 90, 101, 90), 'bad-threshold');
    expectFault(reductionVerdict(NaN, 90, 99, 90), 'bad-number');
  });
});

describe('verdictObstacle(pairs)', () => {
  const pairsOf = (eggs: number[]): Pair[] =>
    eggs.map((before) => ({ before, after: 0, factorBefore: 50, factorAfter: 50 }));

  it('is nothing for six shedding animals of which none has more than half', () => {
    expect(verdictObstacle(pairsOf([10, 2, 2, 2, 2, 2]))).toBeNull();
  });

  it('names too few animals with eggs, and one animal with more than half of them', () => {
    expectFault(verdictObstacle(pairsOf([5, 5, 5, 5, 5, 0, 0])), 'too-few-shedding');
    expectFault(verdictObstacle(pairsOf([11, 2, 2, 2, 2, 2])), 'one-animal');
    expect(
      verdictObstacle(pairsOf([11, 2, 2, 2, 2, 2]), { fewestShedding: 6, largestShare: 0.6 }),
    ).toBeNull();
  });

  it('measures the half in epg, not in eggs, where factors differ', () => {
    const pairs = pairsOf([10, 2, 2, 2, 2, 2]);
    const first = pairs[0];
    if (!first) throw new Error('no pair');
    expectFault(
      verdictObstacle([{ ...first, factorBefore: 100 }, ...pairs.slice(1)]),
      'one-animal',
    );
  });
});
