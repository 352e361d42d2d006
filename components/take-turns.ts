import { breathe } from './breather.ts';
import { nextFrame } from './next-frame.ts';

/** One piece of work that waits for its turn. */
export interface Turn {
  readonly isInSight: () => boolean;
  readonly signal: AbortSignal;
  /** Never rejects. */
  readonly run: () => Promise<void>;
}

/** Work out of sight waits until nothing new has come for so long, ms. */
const REST = 400;
/** A turn that takes longer, since it waits for something else, no longer keeps the others waiting, ms. */
const LONGEST = 150;

/**
 * Work of the page's blocks after it has painted, one piece after the other: what is in sight at once, the
 * rest when no key came for a while. Each owner has one piece at most; a newer one takes its place.
 */
class TakeTurns {
  private readonly waiting = new Map<object, Turn>();
  private newest = 0;
  private isGoing = false;

  add(owner: object, turn: Turn): void {
    this.waiting.delete(owner);
    this.waiting.set(owner, turn);
    this.newest = performance.now();
    this.begin();
  }

  /** The owner has come in sight. */
  hurry(owner: object): void {
    if (this.waiting.has(owner)) this.begin();
  }

  private begin(): void {
    if (this.isGoing) return;
    this.isGoing = true;
    void this.go();
  }

  /** What is asked for before a frame is drawn is worked out after it: a turn of its own follows the drawing. */
  private async go(): Promise<void> {
    let painted = -1;
    for (;;) {
      if (painted !== this.newest) {
        await nextFrame();
        painted = this.newest;
        await breathe();
        continue;
      }
      const next = this.next();
      if (!next) break;
      await Promise.race([next.run(), aborted(next.signal), wait(LONGEST)]);
      await breathe();
    }
    this.isGoing = false;
    if (this.waiting.size > 0) setTimeout(() => this.begin(), REST);
  }

  private next(): Turn | null {
    const isResting =
      document.visibilityState === 'hidden' || performance.now() - this.newest >= REST;
    for (const [owner, turn] of this.waiting) {
      if (turn.signal.aborted) this.waiting.delete(owner);
      else if (isResting || turn.isInSight()) {
        this.waiting.delete(owner);
        return turn;
      }
    }
    return null;
  }
}

/** The turns of this page. */
export const takeTurns = new TakeTurns();

function aborted(signal: AbortSignal): Promise<void> {
  return new Promise((done) => signal.addEventListener('abort', () => done(), { once: true }));
}

function wait(ms: number): Promise<void> {
  return new Promise((done) => setTimeout(done, ms));
}
