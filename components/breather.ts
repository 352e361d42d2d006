/** Longest stretch of work before keys and painting get their turn, ms: half of a frame. */
const STRETCH = 8;

const channel = new MessageChannel();
const breathing: (() => void)[] = [];
channel.port1.onmessage = () => breathing.shift()?.();

/** Lets the page paint and take keys in between the slices of long work. */
export function breathe(): Promise<void> {
  return new Promise((done) => {
    breathing.push(done);
    channel.port2.postMessage(null);
  });
}

/** Says when long work has gone on long enough without a pause. */
export interface Breather {
  readonly isDue: boolean;
  /** Rejects with an AbortError where the work has become idle meanwhile. */
  take(): Promise<void>;
}

/**
 * Cuts work in slices by the clock:
 *
 *     const breath = breather(signal);
 *     for (const row of rows) {
 *       if (breath.isDue) await breath.take();
 *       look(row);
 *     }
 */
export function breather(signal: AbortSignal): Breather {
  let since = performance.now();
  return {
    get isDue() {
      return performance.now() - since > STRETCH;
    },
    async take() {
      await breathe();
      signal.throwIfAborted();
      since = performance.now();
    },
  };
}
