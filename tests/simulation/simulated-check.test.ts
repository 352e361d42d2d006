import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { checkPlan, checkPlanSetup, type PlanRow } from '../../src/simulation/check-plan.ts';
import { seededRandom } from '../../src/simulation/seeded-random.ts';
import {
  checkInSlices,
  checkSetup,
  simulateCheck,
  simulatedPairs,
  type CheckSetup,
  type VerdictCounts,
} from '../../src/simulation/simulated-check.ts';
import { gammaBelow } from '../../src/stats/gamma-law.ts';
import { reductionLimits } from '../../src/stats/reduction-limits.ts';
import { reductionVerdict } from '../../src/stats/reduction-verdict.ts';
import { expectFault, figure } from '../stats/check-values.ts';

const setup: CheckSetup = {
  animals: 15,
  meanEpg: 500,
  k: 0.7,
  factorBefore: 50,
  factorAfter: 25,
  efficacy: 95,
  expected: 99,
  threshold: 90,
  level: 0.9,
  runs: 2000,
  seed: 42,
};
const anyHerd = { fewestShedding: 0, largestShare: 1 };
const total = (counts: VerdictCounts): number => Object.values(counts).reduce((a, b) => a + b, 0);

/** Asserts that an answer of chance p came as often as it should, within 4 standard errors. */
function expectShare(seen: number, of: number, p: number) {
  expect(Math.abs(seen / of - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / of) + 1e-12);
}

describe('simulateCheck(setup)', () => {
  it('gives the same answer for the same seed, another for another, and counts every run', () => {
    const first = figure(simulateCheck(setup));
    expect(simulateCheck(setup)).toEqual(first);
    expect(simulateCheck({ ...setup, seed: 43 })).not.toEqual(first);
    expect(total(first)).toBe(setup.runs);
  });

  it('two like animals, a perfect drug: susceptible as often as both shed 32 eggs or more together', () => {
    // By hand: after treatment there is never an egg, so high is 100 and low is 100[1 − (0.05^(−1/Σx) − 1)], which
    // reaches 90 from 32 eggs on; Σx is Poisson of mean 2 × 15, and an animal without eggs (e^−15) does not show.
    const runs = 20_000;
    const two = { ...setup, animals: 2, k: Infinity, meanEpg: 750, factorAfter: 50, runs };
    const counts = figure(simulateCheck({ ...two, efficacy: 100, rule: anyHerd }));
    expectShare(counts.susceptible, runs, gammaBelow(30, 32));
    expect(counts.susceptible + counts.inconclusive + counts['no verdict']).toBe(runs);
    expect(counts['no verdict']).toBeLessThan(5);
  });

  it('two animals, k 1: no verdict as often as one of them carries all the eggs, or none has any', () => {
    // By hand: without eggs with chance 1/(1 + m), m = 2 eggs; a verdict takes eggs in both.
    const runs = 20_000;
    const two = { ...setup, animals: 2, k: 1, meanEpg: 100, efficacy: 100, runs };
    const counts = figure(simulateCheck({ ...two, rule: anyHerd }));
    expectShare(counts['no verdict'], runs, 1 - (1 - 1 / 3) ** 2);
  });

  it('two like animals, all outcomes added up: every verdict comes as often as it should', () => {
    const runs = 20_000;
    const two = { ...setup, animals: 2, k: Infinity, meanEpg: 250, factorAfter: 50, efficacy: 60 };
    const rare = { ...two, expected: 80, threshold: 10, runs, rule: anyHerd };
    const seen = figure(simulateCheck(rare));
    const chance: VerdictCounts = {
      susceptible: 0,
      'low resistant': 0,
      resistant: 0,
      inconclusive: 0,
      'no verdict': 0,
    };
    const law = (mean: number, most: number): number[] => {
      const p = [Math.exp(-mean)];
      for (let x = 1; x <= most; x++) p.push(((p[x - 1] ?? 0) * mean) / x);
      return p;
    };
    const before = law(5, 18);
    const after = law(2, 11);
    for (const [x1, p1] of before.entries())
      for (const [x2, p2] of before.entries())
        for (const [y1, q1] of after.entries())
          for (const [y2, q2] of after.entries()) {
            const limits = reductionLimits({ before: [x1, x2], after: [y1, y2] });
            const verdict = isFault(limits)
              ? 'no verdict'
              : figure(reductionVerdict(limits.low, limits.high, 80, 10));
            chance[verdict] += p1 * p2 * q1 * q2;
          }
    expect(total(chance)).toBeGreaterThan(0.9999);
    for (const verdict of Object.keys(chance) as (keyof VerdictCounts)[]) {
      expectShare(seen[verdict], runs, chance[verdict]);
    }
    expect(seen.inconclusive).toBeLessThan(runs);
  });

  it('keeps the rule for a verdict: at least 6 animals shedding', () => {
    expect(figure(simulateCheck({ ...setup, animals: 5, runs: 200 }))['no verdict']).toBe(200);
  });

  it('finds out a failing drug and clears a good one, with many eggs', () => {
    const many = { ...setup, animals: 20, k: 2, meanEpg: 2000, runs: 500 };
    expect(figure(simulateCheck({ ...many, efficacy: 60 })).resistant).toBe(500);
    expect(figure(simulateCheck({ ...many, efficacy: 99.9 })).susceptible).toBeGreaterThan(480);
    expect(figure(simulateCheck({ ...many, efficacy: -50 })).resistant).toBe(500);
  });

  it('is a fault for numbers that make no check', () => {
    const bad: Partial<CheckSetup>[] = [
      { animals: 1 },
      { animals: 2.5 },
      { meanEpg: 0 },
      { k: 0 },
      { runs: 0 },
      { efficacy: 101 },
      { efficacy: NaN },
      { seed: NaN },
    ];
    for (const part of bad) expectFault(simulateCheck({ ...setup, ...part }), 'bad-amount');
    expectFault(simulateCheck({ ...setup, factorAfter: 0 }), 'bad-factor');
    expectFault(simulateCheck({ ...setup, level: 90 }), 'bad-level');
    expectFault(simulateCheck({ ...setup, threshold: 99 }), 'bad-threshold');
    expect(checkSetup(setup)).toBeNull();
    expect(() => checkInSlices({ ...setup, runs: -1 }).next()).toThrow(/trials/);
  });
});

describe('checkInSlices(setup, sliceRuns)', () => {
  it('adds up to the same whatever the slices, and can be stopped', () => {
    const whole = simulateCheck({ ...setup, runs: 700 });
    for (const slice of [1, 64, 699, 700, 5000]) {
      let last: unknown;
      let reports = 0;
      for (const progress of checkInSlices({ ...setup, runs: 700 }, slice)) {
        expect(total(progress.counts)).toBe(progress.done);
        last = progress.counts;
        reports += 1;
      }
      expect(last).toEqual(whole);
      expect(reports).toBe(Math.ceil(700 / slice));
    }
    const stopped = checkInSlices(setup, 100);
    expect(stopped.next().value).toMatchObject({ done: 100, runs: 2000 });
    stopped.return({
      susceptible: 0,
      'low resistant': 0,
      resistant: 0,
      inconclusive: 0,
      'no verdict': 0,
    });
    expect(stopped.next().done).toBe(true);
  });
});

describe('simulatedPairs(setup, random)', () => {
  it('loses the part that the drug takes, in the right unit', () => {
    const random = seededRandom(3);
    let before = 0;
    let after = 0;
    for (let run = 0; run < 1000; run++) {
      for (const pair of simulatedPairs({ ...setup, efficacy: 80 }, random)) {
        before += pair.before * pair.factorBefore;
        after += pair.after * pair.factorAfter;
      }
    }
    // 15,000 animals: relative standard error of the mean √((1/10 + 1/0.7)/15,000), 1 %.
    expect(Math.abs(before / 15_000 - 500)).toBeLessThan(500 * 0.04);
    expect(Math.abs(after / before - 0.2)).toBeLessThan(0.01);
  });
});

describe('checkPlan(plan)', () => {
  const { factorBefore: _first, factorAfter: _second, ...rest } = setup;
  const plan = { ...rest, animals: [10, 15], factors: [50, 25], runs: 300 };
  const run = (setupOfPlan: typeof plan): readonly PlanRow[] => {
    const steps = checkPlan(setupOfPlan, 100);
    for (;;) {
      const step = steps.next();
      if (step.done) return step.value;
    }
  };

  it('tries every number of animals with every factor, and reports on the way', () => {
    const reports = [...checkPlan(plan, 100)];
    expect(reports).toHaveLength(12);
    expect(reports.map((report) => report.done)).toEqual([
      100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1100, 1200,
    ]);
    expect(reports.at(3)?.rows).toHaveLength(1);
    const rows = run(plan);
    expect(reports.at(-1)).toEqual({ done: 1200, runs: 1200, rows });
    expect(rows.map((row) => [row.animals, row.factor, row.eggsExpected])).toEqual([
      [10, 50, 100],
      [10, 25, 200],
      [15, 50, 150],
      [15, 25, 300],
    ]);
    for (const row of rows) expect(total(row.counts)).toBe(300);
  });

  it('leaving out a row changes no other; the same seed gives the same plan', () => {
    const rows = run(plan);
    expect(run(plan)).toEqual(rows);
    expect(run({ ...plan, animals: [15] })).toEqual(rows.slice(2));
    expect(run({ ...plan, seed: 1 })).not.toEqual(rows);
  });

  it('more animals and a lower factor leave less undecided', () => {
    const rows = run({ ...plan, animals: [8, 40], factors: [100, 15], efficacy: 80, runs: 600 });
    const decided = rows.map((row) => row.counts.resistant);
    expect(decided[3]).toBeGreaterThan(decided[0] ?? NaN);
    expect(decided[2]).toBeGreaterThan(decided[0] ?? NaN);
  });

  it('is a fault for an empty or senseless plan', () => {
    expectFault(checkPlanSetup({ ...plan, animals: [] }), 'bad-amount');
    expectFault(checkPlanSetup({ ...plan, factors: [] }), 'bad-amount');
    expectFault(checkPlanSetup({ ...plan, factors: [50, 0] }), 'bad-factor');
    expect(checkPlanSetup(plan)).toBeNull();
    expect(() => checkPlan({ ...plan, animals: [] }).next()).toThrow(/number of animals/);
  });
});
