import type { PlanStand, WorkerMessage } from '../../shared/worker-messages.ts';
import { planFault, tryPlan } from './try-plan.ts';

/**
 * The worker's side of the talk about plans, without the worker: give it what posts a message and what waits
 * until newly arrived messages have been heard, and hand every message received to the function it returns.
 *
 * One plan at a time: a newer one, or a request to stop, is taken up at the end of the slice, and the plan left off
 * is told of as stopped. Messages that are not requests are passed over.
 */
export function planAnswerer(
  post: (message: WorkerMessage) => void,
  hearOthers: () => Promise<void>,
): (message: WorkerMessage) => Promise<void> {
  let wanted: number | null = null;
  return async (message) => {
    if (message.kind === 'stop plan' && message.id === wanted) wanted = null;
    if (message.kind !== 'try plan') return;
    const { id, plan } = message;
    const wrong = planFault(plan);
    wanted = wrong ? null : id;
    if (wrong) {
      post({ kind: 'plan refused', id, fault: wrong });
      return;
    }
    let stand: PlanStand = { done: 0, runs: 0, rows: [] };
    for (stand of tryPlan(plan)) {
      post({ kind: 'plan progress', id, stand });
      await hearOthers();
      if (wanted !== id) {
        post({ kind: 'plan stopped', id, stand });
        return;
      }
    }
    wanted = null;
    post({ kind: 'plan done', id, stand });
  };
}
