/** Lets the page paint and take keys before long work goes on. */
export type Pause = () => Promise<void>;

interface Timers {
  setTimeout(run: () => void, ms: number): unknown;
}

/** The next turn of the event loop, in a page, a worker and Node alike. */
export const nextTurn: Pause = () =>
  new Promise((resolve) => {
    (globalThis as unknown as Timers).setTimeout(resolve, 0);
  });

/** Runs a generator in one go. */
export function inOneGo<T>(work: Generator<void, T>): T {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}

/** Runs a generator with a pause at every `yield`; `false` from `goOn` gives it up (null). */
export async function inSlices<T>(
  work: Generator<void, T>,
  pause: Pause,
  goOn: () => boolean = () => true,
): Promise<T | null> {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    await pause();
    if (!goOn()) return null;
  }
}
