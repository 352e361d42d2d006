import { fault, type Fault } from '../../shared/value.ts';
import { seedOfPart } from './seeded-random.ts';
import {
  checkInSlices,
  checkSetup,
  SLICE_RUNS,
  type CheckSetup,
  type VerdictCounts,
} from './simulated-check.ts';
import { say } from '../text/say.ts';

/** A plan to try out: the set-up of a check, with several numbers of animals and several factors in place of one. */
export type PlanSetup = Omit<CheckSetup, 'animals' | 'factorBefore' | 'factorAfter'> & {
  readonly animals: readonly number[];
  /** epg per egg seen, the same on both days. */
  readonly factors: readonly number[];
};

/** What a check of `animals` animals at `factor` would say. */
export interface PlanRow {
  readonly animals: number;
  readonly factor: number;
  /** Eggs that would be seen before treatment, all animals together, on average. */
  readonly eggsExpected: number;
  readonly runs: number;
  readonly counts: Readonly<VerdictCounts>;
}

/** Where a plan stands: checks tried out of all, and the rows that are complete. */
export interface PlanProgress {
  readonly done: number;
  readonly runs: number;
  readonly rows: readonly PlanRow[];
}

/**
 * Tries out every number of animals with every factor and counts the verdicts of each.
 *
 * A generator: yields every `sliceRuns` checks, so a worker can report progress and stop between; it returns the
 * rows, animals first, then factors, in the order given. Each row has its own seed made from the plan's seed,
 * its animals and its factor: adding or leaving out a row changes no other. The set-up must be one that `checkPlanSetup`
 * passes; throws otherwise. Source: as `simulateCheck`.
 */
export function* checkPlan(
  plan: PlanSetup,
  sliceRuns: number = SLICE_RUNS,
): Generator<PlanProgress, readonly PlanRow[]> {
  const wrong = checkPlanSetup(plan);
  if (wrong) throw new Error(`checkPlan: ${wrong.sentence}`);
  const setups = setupsOf(plan);
  const runs = setups.length * plan.runs;
  const rows: PlanRow[] = [];
  for (const setup of setups) {
    const before = rows.length * plan.runs;
    for (const progress of checkInSlices(setup, sliceRuns)) {
      if (progress.done === setup.runs) rows.push(rowOf(setup, progress.counts));
      yield { done: before + progress.done, runs, rows: [...rows] };
    }
  }
  return rows;
}

/** `null` for a plan that can be tried, else what is wrong with it. */
export function checkPlanSetup(plan: PlanSetup): Fault | null {
  if (plan.animals.length === 0 || plan.factors.length === 0) {
    return fault('bad-amount', say('Give at least one number of animals and one factor to try.'));
  }
  for (const setup of setupsOf(plan)) {
    const wrong = checkSetup(setup);
    if (wrong) return wrong;
  }
  return null;
}

function setupsOf(plan: PlanSetup): CheckSetup[] {
  const { animals, factors, ...rest } = plan;
  return animals.flatMap((number) =>
    factors.map((factor) => ({
      ...rest,
      animals: number,
      factorBefore: factor,
      factorAfter: factor,
      seed: seedOfPart(seedOfPart(plan.seed, number), factor),
    })),
  );
}

function rowOf(setup: CheckSetup, counts: Readonly<VerdictCounts>): PlanRow {
  return {
    animals: setup.animals,
    factor: setup.factorBefore,
    eggsExpected: (setup.animals * setup.meanEpg) / setup.factorBefore,
    runs: setup.runs,
    counts,
  };
}
