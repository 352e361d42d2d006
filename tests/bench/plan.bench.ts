import type { PlanAsked } from '../../shared/worker-messages.ts';
import { planAnswerer } from '../../src/simulation/answer-plan.ts';
import type { Row } from './bench.ts';

export const name = 'Planning a dewormer check';

const plan: PlanAsked = {
  efficacies: [99, 80],
  animals: [15],
  factors: [100, 50, 25],
  meanEpg: 600,
  k: 0.7,
  expected: 99,
  threshold: 90,
  level: 0.9,
  runs: 10_000,
  seed: 1,
};

/** Tries the plan as the worker does, with a pause to hear messages after every slice; seconds, and the longest slice in ms. */
async function tried(asked: PlanAsked): Promise<{ seconds: number; longest: number }> {
  let longest = 0;
  let since = performance.now();
  const receive = planAnswerer(
    () => {
      longest = Math.max(longest, performance.now() - since);
    },
    async () => {
      await new Promise((done) => setTimeout(done));
      since = performance.now();
    },
  );
  const start = performance.now();
  since = start;
  await receive({ kind: 'try plan', id: 1, plan: asked });
  return { seconds: (performance.now() - start) / 1000, longest };
}

export async function run(): Promise<readonly Row[]> {
  await tried({ ...plan, runs: 500 });
  const { seconds, longest } = await tried(plan);
  const checks = plan.efficacies.length * plan.factors.length * plan.runs;
  const large = await tried({ ...plan, animals: [500], factors: [50], runs: 500 });
  return [
    {
      what: 'Simulated checks of 15 animals, a second of worker time',
      measured: Math.round(checks / seconds).toLocaleString('en'),
      budget: 'at least 10,000',
      note: `${checks.toLocaleString('en')} checks, pauses to hear "stop" included`,
    },
    {
      what: 'Longest wait before "stop" is heard, 15 animals',
      measured: `${longest.toFixed(0)} ms`,
      budget: '100 ms',
    },
    {
      what: 'Longest wait before "stop" is heard, 500 animals',
      measured: `${large.longest.toFixed(0)} ms`,
      budget: '100 ms',
    },
  ];
}
