import { describe, expect, it } from 'vitest';
import type { PlanAsked, WorkerMessage } from '../../shared/worker-messages.ts';
import { planAnswerer } from '../../src/simulation/answer-plan.ts';
import { simulateCheck } from '../../src/simulation/simulated-check.ts';
import { planFault, tryPlan } from '../../src/simulation/try-plan.ts';
import { expectFault, figure } from '../stats/check-values.ts';

const plan: PlanAsked = {
  efficacies: [99, 80],
  animals: [10, 15],
  factors: [50, 25],
  meanEpg: 600,
  k: 0.7,
  expected: 99,
  threshold: 90,
  level: 0.9,
  runs: 600,
  seed: 7,
};
const checks = 2 * 2 * 2 * plan.runs;

/** The worker's side with its messages kept; `between` runs at every pause, as a message arriving would. */
function worker(between: (sent: readonly WorkerMessage[]) => void = () => undefined) {
  const sent: WorkerMessage[] = [];
  const receive = planAnswerer(
    (message) => sent.push(message),
    async () => between(sent),
  );
  return { sent, receive };
}

describe('planAnswerer(post, hearOthers)', () => {
  it('tells of progress after every slice, then of the whole answer', async () => {
    const { sent, receive } = worker();
    await receive({ kind: 'try plan', id: 1, plan });
    const progress = sent.filter((message) => message.kind === 'plan progress');
    expect(progress.length).toBe(sent.length - 1);
    expect(progress.length).toBe(2 * 2 * 2 * 2);
    const done = progress.map(({ stand }) => stand.done);
    expect(done).toEqual([...done].sort((a, b) => a - b));
    expect(done.at(-1)).toBe(checks);
    const last = sent.at(-1);
    expect(last).toMatchObject({ kind: 'plan done', id: 1, stand: { done: checks, runs: checks } });
    const rows = last?.kind === 'plan done' ? last.stand.rows : [];
    expect(rows.map((row) => [row.efficacy, row.animals, row.factor])).toEqual([
      [99, 10, 50],
      [99, 10, 25],
      [99, 15, 50],
      [99, 15, 25],
      [80, 10, 50],
      [80, 10, 25],
      [80, 15, 50],
      [80, 15, 25],
    ]);
  });

  it('the same seed gives the same answer, another seed another', async () => {
    const answers = [];
    for (const seed of [7, 7, 8]) {
      const { sent, receive } = worker();
      await receive({ kind: 'try plan', id: 1, plan: { ...plan, seed } });
      answers.push(sent.at(-1));
    }
    expect(answers[0]).toEqual(answers[1]);
    expect(answers[0]).not.toEqual(answers[2]);
  });

  it('leaves off when asked, and tells what was complete by then', async () => {
    let receive: (message: WorkerMessage) => Promise<void> = async () => undefined;
    const side = worker((sent) => {
      if (sent.length === 5) void receive({ kind: 'stop plan', id: 3 });
    });
    ({ receive } = side);
    await receive({ kind: 'try plan', id: 3, plan });
    expect(side.sent).toHaveLength(6);
    const last = side.sent.at(-1);
    expect(last).toMatchObject({ kind: 'plan stopped', id: 3, stand: { done: 1533 } });
    expect(last?.kind === 'plan stopped' && last.stand.rows.length).toBe(2);
  });

  it('takes up a newer plan in place of the one under way; a stop for a former plan stops nothing', async () => {
    let newer: Promise<void> | undefined;
    let receive: (message: WorkerMessage) => Promise<void> = async () => undefined;
    const small = { ...plan, efficacies: [99], animals: [8], factors: [50], runs: 100 };
    const side = worker((sent) => {
      if (sent.length === 1) newer = receive({ kind: 'try plan', id: 2, plan: small });
      void receive({ kind: 'stop plan', id: 77 });
    });
    ({ receive } = side);
    await receive({ kind: 'try plan', id: 1, plan });
    await newer;
    const ends = side.sent.filter(({ kind }) => kind !== 'plan progress');
    expect(ends.map(({ kind, id }) => `${kind} ${id}`).sort()).toEqual([
      'plan done 2',
      'plan stopped 1',
    ]);
  });

  it('refuses a plan that makes no check, with the sentence', async () => {
    const { sent, receive } = worker();
    await receive({ kind: 'try plan', id: 4, plan: { ...plan, meanEpg: 0 } });
    expect(sent).toHaveLength(1);
    expect(sent[0]).toMatchObject({ kind: 'plan refused', id: 4, fault: { fault: 'bad-amount' } });
  });
});

describe('tryPlan(plan)', () => {
  it('a line is the very check that simulateCheck makes, and every drug meets the same herds', () => {
    const one = { ...plan, efficacies: [80], animals: [15], factors: [50], runs: 300 };
    const alone = [...tryPlan(one)].at(-1)?.rows[0];
    const among = [...tryPlan({ ...plan, runs: 300 })].at(-1)?.rows[6];
    expect(among).toEqual(alone);
    // The same setup with another seed comes near, within four standard errors of a share.
    const { efficacies: _, animals: __, factors: ___, ...rest } = one;
    const counts = figure(
      simulateCheck({
        ...rest,
        animals: 15,
        factorBefore: 50,
        factorAfter: 50,
        efficacy: 80,
        runs: 3000,
      }),
    );
    const share = counts.resistant / 3000;
    const error = Math.sqrt((share * (1 - share)) / 300);
    expect(Math.abs((alone?.counts.resistant ?? NaN) / 300 - share)).toBeLessThan(4 * error);
  });

  it('reports more often where the herds are large, so that stopping is as prompt', () => {
    const large = { ...plan, efficacies: [99], animals: [500], factors: [50], runs: 60 };
    expect([...tryPlan(large)].map(({ done }) => done)).toEqual([10, 20, 30, 40, 50, 60]);
  });

  it('is a fault for a plan without a drug, and throws if tried all the same', () => {
    expectFault(planFault({ ...plan, efficacies: [] }), 'bad-amount');
    expectFault(planFault({ ...plan, efficacies: [99, 101] }), 'bad-amount');
    expectFault(planFault({ ...plan, threshold: 99 }), 'bad-threshold');
    expect(planFault(plan)).toBeNull();
    expect(() => tryPlan({ ...plan, efficacies: [] }).next()).toThrow(/drug/);
  });
});
