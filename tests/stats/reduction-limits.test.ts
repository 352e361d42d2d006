import { describe, expect, it } from 'vitest';
import { groupReduction, groupReductionLimits } from '../../src/stats/group-reduction.ts';
import { reduction } from '../../src/stats/reduction.ts';
import { reductionLimits, type ReductionMethod } from '../../src/stats/reduction-limits.ts';
import { checkValues, expectClose, expectFault, figure } from './check-values.ts';

const times = (eggs: readonly number[], factor: number) => eggs.map((x) => x * factor);

describe('reduction limits against R 4.2.2', () => {
  for (const row of checkValues.paired_reduction) {
    const counts = {
      before: row.before_eggs,
      after: row.after_eggs,
      factorBefore: row.factor_before,
      factorAfter: row.factor_after,
    };
    it(`${row.name}: reduction(before, after)`, () => {
      expectClose(
        reduction(
          times(row.before_eggs, row.factor_before),
          times(row.after_eggs, row.factor_after),
        ),
        row.reduction,
      );
    });
    const forms: [ReductionMethod, { low: number; high: number } | undefined][] = [
      ['adjusted', row.leverage_adjusted ?? row.zero_after],
      ['log-t', row.paired_log_t ?? row.zero_after],
      ['gamma', row.paired_gamma ?? row.zero_after],
    ];
    for (const [method, expected] of forms) {
      it(`${row.name}: reductionLimits(…, '${method}')`, () => {
        const limits = figure(reductionLimits(counts, row.level, method));
        expectClose(limits.low, expected?.low ?? NaN);
        expectClose(limits.high, expected?.high ?? NaN);
        expectClose(limits.reduction, row.reduction);
        expect(limits.method).toBe(row.zero_after ? 'zero-after' : method);
      });
    }
  }
  for (const row of checkValues.paired_mixed_factor) {
    it(`${row.name}: factors of each animal`, () => {
      const limits = figure(
        reductionLimits(
          {
            before: row.before_eggs,
            after: row.after_eggs,
            factorBefore: row.factor_before,
            factorAfter: row.factor_after,
          },
          row.level,
        ),
      );
      expectClose(limits.reduction, row.reduction);
      expectClose(limits.low, row.low);
      expectClose(limits.high, row.high);
    });
  }
  for (const row of checkValues.unpaired_reduction) {
    it(`${row.name}: treated and control groups`, () => {
      expectClose(groupReduction(row.treated, row.control), row.reduction);
      const limits = figure(groupReductionLimits(row.treated, row.control, row.level));
      expectClose(limits.low, row.low);
      expectClose(limits.high, row.high);
    });
  }
});

describe('reduction(before, after)', () => {
  it('pairs animals complete on both days only', () => {
    expect(reduction([500, 500, null, 1000], [null, 0, 300, 100])).toBeCloseTo(
      100 * (1 - 100 / 1500),
    );
    expect(reduction([500, 100], [null, 10])).toBeCloseTo(90);
  });

  it('counts a pair of zeros and is never clipped', () => {
    expect(reduction([0, 100], [0, 0])).toBe(100);
    expect(reduction([50], [100])).toBe(-100);
  });

  it('is a fault when before is all zero, and says so to a farmer', () => {
    expect(reduction([0, 0, null], [50, 0, 50])).toEqual({
      fault: 'no-eggs-before',
      sentence: 'Before-treatment counts are all zero, so there is no reduction to work out.',
    });
  });

  it('is a fault for nothing, unequal lists and nonsense', () => {
    expectFault(reduction([], []), 'no-pairs');
    expectFault(reduction([500, null], [null, 0]), 'no-pairs');
    expectFault(reduction([1, 2], [1]), 'unequal-lists');
    expectFault(reduction([-1], [1]), 'bad-number');
    expectFault(reduction([1], [NaN]), 'bad-number');
  });
});

describe('reductionLimits(counts): the order of tests', () => {
  it('no pair, then no eggs before, then one pair, then one animal with all the eggs, then none after', () => {
    expectFault(reductionLimits({ before: [null], after: [1] }), 'no-pairs');
    expectFault(reductionLimits({ before: [0], after: [0] }), 'no-eggs-before');
    expectFault(reductionLimits({ before: [0, 0], after: [5, 0] }), 'no-eggs-before');
    expectFault(reductionLimits({ before: [9], after: [0] }), 'too-few-pairs');
    expectFault(reductionLimits({ before: [9, 0, 0], after: [0, 0, 0] }), 'one-animal');
    expectFault(
      reductionLimits({ before: [9, 0, 0], after: [1, 0, 0] }, 0.9, 'gamma'),
      'one-animal',
    );
    const none = figure(reductionLimits({ before: [9, 1], after: [0, 0] }, 0.9, 'gamma'));
    expect(none).toMatchObject({ method: 'zero-after', reduction: 100, high: 100, pairs: 2 });
  });

  it('half an egg, bad factors, levels and lists are faults', () => {
    const before = [5, 6, 7];
    const after = [1, 1, 2];
    expectFault(reductionLimits({ before, after: [1, 1.5, 2] }), 'eggs-not-whole');
    expectFault(reductionLimits({ before, after: [1, -1, 2] }), 'bad-eggs');
    expectFault(reductionLimits({ before, after: [1, 1] }), 'unequal-lists');
    expectFault(reductionLimits({ before, after, factorBefore: [50] }), 'unequal-lists');
    expectFault(reductionLimits({ before, after, factorAfter: [50, 50] }), 'unequal-lists');
    expectFault(reductionLimits({ before, after, factorAfter: 0 }), 'bad-factor');
    expectFault(reductionLimits({ before, after }, 1), 'bad-level');
  });
});

describe('limits too wide to mean anything', () => {
  it('are a fault, not an endless number', () => {
    // Two animals, one with nearly all eggs before, the other with all the eggs after.
    expectFault(reductionLimits({ before: [1, 34], after: [400, 0] }), 'no-limits');
    expectFault(groupReductionLimits([0, 5], [10, 900], 0.9999), 'no-limits');
  });
});

describe('reductionLimits(counts) with no egg after', () => {
  it.each([
    [62, 95],
    [32, 90],
  ])('it takes %i eggs before for a lower limit of %i %%', (eggs, threshold) => {
    // Elementary: all eggs before under one rate, a = 0.05: 1 − (0.05^(−1/n) − 1) ≥ threshold.
    const low = (n: number): number =>
      figure(reductionLimits({ before: [n - 5, 5], after: [0, 0] })).low;
    expect(low(eggs)).toBeGreaterThanOrEqual(threshold);
    expect(low(eggs - 1)).toBeLessThan(threshold);
  });

  it('weighs the factors of the two days', () => {
    const limits = figure(
      reductionLimits({ before: [20, 30], after: [0, 0], factorBefore: 50, factorAfter: 25 }),
    );
    expectClose(limits.low, 100 * (1 - 0.5 * (0.05 ** (-1 / 50) - 1)), 1e-12);
  });

  it('solves for animals with factors of their own', () => {
    const before = [20, 30, 0];
    const factorBefore = [50, 25, 50];
    const factorAfter = [25, 50, 100];
    const { low } = figure(
      reductionLimits({ before, after: [0, 0, 0], factorBefore, factorAfter }),
    );
    const ratio = 1 - low / 100;
    // The chance of no egg after, given each animal's total, must be the 5 % promised.
    const chance = (1 + ratio * 2) ** -20 * (1 + ratio / 2) ** -30;
    expectClose(chance, 0.05, 1e-9);
  });
});

describe('the published gamma form', () => {
  it('leaves a point where every animal is reduced alike', () => {
    const limits = figure(
      reductionLimits({ before: [10, 20, 30], after: [1, 2, 3] }, 0.9, 'gamma'),
    );
    expectClose(limits.low, 90, 1e-9);
    expectClose(limits.high, 90, 1e-9);
  });

  it('is narrower than ours there, which keeps the luck of the count', () => {
    const limits = figure(reductionLimits({ before: [10, 20, 30], after: [1, 2, 3] }));
    expect(limits.low).toBeLessThan(85);
    expect(limits.high).toBeGreaterThan(93);
  });
});

describe('groupReductionLimits(treated, control)', () => {
  it('leaves out the animals not counted', () => {
    expect(groupReduction([1, null, 3], [10, 10, null])).toBeCloseTo(80);
    expect(groupReductionLimits([1, null, 3], [10, 12, null])).toEqual(
      groupReductionLimits([1, 3], [10, 12]),
    );
  });

  it('is a fault where the form breaks', () => {
    expectFault(groupReductionLimits([0, 0], [10, 12]), 'zero-after');
    expect(groupReduction([0, 0], [10, 12])).toBe(100);
    expectFault(groupReduction([1, 2], [0, 0]), 'no-eggs-control');
    expectFault(groupReductionLimits([1], [10, 12]), 'too-few');
    expectFault(groupReduction([], [1]), 'no-counts');
    expectFault(groupReduction([1], [null]), 'no-counts');
    expectFault(groupReductionLimits([1, 2], [10, 12], 0), 'bad-level');
    expectFault(groupReduction([1, -2], [10, 12]), 'bad-number');
  });
});
