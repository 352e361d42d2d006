/** Lets the page paint and take keys before long work goes on. */
export type Pause = () => Promise<void>;

/** Milliseconds that go forward, from any beginning. Tells only how long a slice took, never what is in it. */
export type Clock = () => number;

interface Turns {
  readonly setImmediate?: (run: () => void) => unknown;
  readonly MessageChannel?: new () => {
    readonly port1: { onmessage: (() => void) | null; close(): void };
    readonly port2: { postMessage(message: null): void };
  };
}

/**
 * The next turn of the event loop, in a page, a worker and Node alike. No timer: after a few of them a
 * browser makes each wait four thousandths of a second.
 */
export const nextTurn: Pause = () =>
  new Promise((resolve) => {
    const { setImmediate, MessageChannel } = globalThis as unknown as Turns;
    if (setImmediate) {
      setImmediate(resolve);
    } else if (MessageChannel) {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => {
        port1.close();
        resolve();
      };
      port2.postMessage(null);
    } else {
      resolve();
    }
  });

/** The clock of a page, a worker and Node alike. */
export const sliceClock: Clock = () =>
  (globalThis as unknown as { readonly performance: { now(): number } }).performance.now();

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
