import type { PlanAsked } from '../../shared/worker-messages.ts';

/** A plan that is quickly tried out: one factor, two numbers of animals. */
export const askedPlan: PlanAsked = {
  efficacies: [99, 80],
  animals: [10, 15],
  factors: [50],
  meanEpg: 600,
  k: 0.7,
  expected: 99,
  threshold: 90,
  level: 0.9,
  runs: 500,
  seed: 7,
};
