import { expect, it } from 'vitest';
import { PlanWorker } from '../../components/plan-worker.ts';
import type { WorkerMessage } from '../../shared/worker-messages.ts';
import { speak } from '../../src/text/say.ts';
import { askedPlan } from './asked-plan.ts';

const plan = askedPlan;

/** A worker that hears everything and never answers. */
function silentWorker() {
  const heard: WorkerMessage[] = [];
  const worker = Object.assign(new EventTarget(), {
    postMessage: (message: WorkerMessage) => void heard.push(message),
    terminate: () => undefined,
    onmessage: null,
    onmessageerror: null,
    onerror: null,
  });
  return { heard, worker };
}

it('a plan that makes no check is refused in the language of the page, and no worker is started', async () => {
  const english = 'The mean epg before treatment must be more than 0.';
  const spanish = 'La media de hpg antes del tratamiento tiene que ser mayor que 0.';
  speak({ language: 'es', locale: 'es-PE', sentences: { [english]: spanish } });
  const planWorker = new PlanWorker(() => {
    throw new Error('started');
  });
  expect(await planWorker.try({ ...plan, meanEpg: 0 }, () => undefined)).toMatchObject({
    fault: 'bad-amount',
    sentence: spanish,
  });
  expect(planWorker.isRunning).toBe(false);
});

it('a refused plan stops the one under way', async () => {
  const { heard, worker } = silentWorker();
  const planWorker = new PlanWorker(() => worker);
  const former = planWorker.try(plan, () => undefined);
  await planWorker.try({ ...plan, animals: [] }, () => undefined);
  expect(await former).toMatchObject({ is: 'stopped' });
  expect(heard.map(({ kind }) => kind)).toEqual(['try plan', 'stop plan']);
  expect(planWorker.isRunning).toBe(false);
});
