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
