import { fault, type Fault } from '../shared/value.ts';
import type { PlanAsked, PlanStand, WorkerMessage } from '../shared/worker-messages.ts';
import { planFault } from '../src/simulation/try-plan.ts';
import { say } from '../src/text/say.ts';

/** How a plan ended: every line complete, or left off with the lines complete so far. */
export interface PlanEnd {
  readonly is: 'done' | 'stopped';
  readonly stand: PlanStand;
}

interface Running {
  readonly id: number;
  readonly onProgress: (stand: PlanStand) => void;
  readonly end: (end: PlanEnd | Fault) => void;
}

function startWorker(): Worker {
  return new Worker(new URL('../src/simulation/plan.worker.ts', import.meta.url), {
    type: 'module',
    name: 'plan',
  });
}

/**
 * The page's side of the worker that tries plans out: one plan at a time, started when first asked. The same
 * plan gives the same lines. Close it when it is no longer needed; it starts anew when asked again.
 */
export class PlanWorker {
  private worker: Worker | null = null;
  private running: Running | null = null;
  private latest = 0;

  constructor(private readonly start: () => Worker = startWorker) {}

  get isRunning(): boolean {
    return this.running !== null;
  }

  /**
   * Tries a plan out; one still under way ends as stopped. A fault says what to change, or that the worker
   * failed. A plan that makes no check is refused here, before it is sent: the worker speaks English only.
   */
  try(plan: PlanAsked, onProgress: (stand: PlanStand) => void): Promise<PlanEnd | Fault> {
    const wrong = planFault(plan);
    if (wrong) this.stop();
    this.leaveOff();
    if (wrong) return Promise.resolve(wrong);
    this.latest += 1;
    const id = this.latest;
    return new Promise((end) => {
      this.running = { id, onProgress, end };
      this.post({ kind: 'try plan', id, plan });
    });
  }

  /** Asks the worker to leave off; the plan under way then ends as stopped, within a slice. */
  stop(): void {
    if (this.running) this.post({ kind: 'stop plan', id: this.running.id });
  }

  /** Ends the worker at once. */
  close(): void {
    this.leaveOff();
    this.worker?.terminate();
    this.worker = null;
  }

  private leaveOff(): void {
    this.running?.end({ is: 'stopped', stand: { done: 0, runs: 0, rows: [] } });
    this.running = null;
  }

  private post(message: WorkerMessage): void {
    this.worker ??= this.listen(this.start());
    this.worker.postMessage(message);
  }

  private listen(worker: Worker): Worker {
    worker.addEventListener('message', (event: MessageEvent<WorkerMessage>) => {
      this.receive(event.data);
    });
    worker.addEventListener('error', (event) => {
      event.preventDefault();
      this.worker?.terminate();
      this.worker = null;
      this.finish(
        fault(
          'no-worker',
          say(
            'The part of the program that tries plans out could not work. Reload the page and try again; nothing typed is lost.',
          ),
        ),
      );
    });
    return worker;
  }

  private receive(message: WorkerMessage): void {
    const { running } = this;
    if (!running || message.id !== running.id) return;
    if (message.kind === 'plan progress') running.onProgress(message.stand);
    if (message.kind === 'plan done') this.finish({ is: 'done', stand: message.stand });
    if (message.kind === 'plan stopped') this.finish({ is: 'stopped', stand: message.stand });
    if (message.kind === 'plan refused') this.finish(message.fault);
  }

  private finish(end: PlanEnd | Fault): void {
    const { running } = this;
    this.running = null;
    running?.end(end);
  }
}
