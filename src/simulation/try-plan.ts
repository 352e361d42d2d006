import type { PlanAsked, PlannedRow, PlanStand } from '../../shared/worker-messages.ts';
import type { Fault } from '../../shared/value.ts';
import { fault } from '../../shared/value.ts';
import { checkPlan, checkPlanSetup, type PlanSetup } from './check-plan.ts';
import { SLICE_RUNS } from './simulated-check.ts';
import { say } from '../text/say.ts';

/** Animals simulated between two reports at most, so that large herds can be stopped as promptly as small ones. */
const SLICE_ANIMALS = 5_000;

/**
 * Tries a plan out for one drug after the other, in the order given.
 *
 * A generator: yields where it stands after every slice, so that a worker can report and stop between; the last
 * thing it yields is the whole answer. Every drug meets the same simulated herds, so that two drugs differ by the
 * drug alone, and leaving one out changes nothing of the other. The plan must be one that `planFault` passes;
 * throws otherwise. Source: as `simulateCheck`.
 */
export function* tryPlan(plan: PlanAsked): Generator<PlanStand, void> {
  const wrong = planFault(plan);
  if (wrong) throw new Error(`tryPlan: ${wrong.sentence}`);
  const ofOneDrug = plan.animals.length * plan.factors.length * plan.runs;
  const runs = plan.efficacies.length * ofOneDrug;
  const slice = Math.floor(SLICE_ANIMALS / Math.max(...plan.animals));
  const complete: PlannedRow[] = [];
  for (const [at, efficacy] of plan.efficacies.entries()) {
    let rows: readonly PlannedRow[] = [];
    for (const stand of checkPlan(setupOf(plan, efficacy), clamp(slice))) {
      rows = stand.rows.map((row) => ({ efficacy, ...row }));
      yield { done: at * ofOneDrug + stand.done, runs, rows: [...complete, ...rows] };
    }
    complete.push(...rows);
  }
}

/** `null` for a plan that can be tried, else what is wrong with it. */
export function planFault(plan: PlanAsked): Fault | null {
  if (plan.efficacies.length === 0) {
    return fault('bad-amount', say('Give the true reduction of at least one drug to try.'));
  }
  for (const efficacy of plan.efficacies) {
    const wrong = checkPlanSetup(setupOf(plan, efficacy));
    if (wrong) return wrong;
  }
  return null;
}

function setupOf(plan: PlanAsked, efficacy: number): PlanSetup {
  const { efficacies: _, ...rest } = plan;
  return { ...rest, efficacy };
}

function clamp(slice: number): number {
  return Math.min(SLICE_RUNS, Math.max(1, slice));
}
