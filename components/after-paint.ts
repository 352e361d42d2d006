import { ContextConsumer } from '@lit/context';
import type { ReactiveController, ReactiveElement } from 'lit';
import type { Notice, Session } from '../src/session/session.ts';
import { sessionContext } from './session-context.ts';
import { Sight } from './sight.ts';
import { takeTurns } from './take-turns.ts';

/** Work on the open notebook; gives up with an AbortError, or early, once `signal` is aborted. */
export type Work<T> = (session: Session, signal: AbortSignal) => T | Promise<T>;

/**
 * Something worked out for one element once the page has painted the change it follows from, so that
 * typing never waits for it. The next change, or leaving the page, gives up work still under way; the
 * former value stands until the new one is there. What is in sight comes first, one after the other; what
 * is not waits until the hand rests.
 */
export class AfterPaint<T> implements ReactiveController {
  private worked: T | undefined;
  private failure: unknown;
  private held: Session | undefined;
  private stop: (() => void) | undefined;
  private current: AbortController | undefined;
  private readonly sight: Sight;

  constructor(
    private readonly host: ReactiveElement,
    private readonly work: Work<T>,
    private readonly when: (notice: Notice, session: Session) => boolean = () => true,
  ) {
    new ContextConsumer(host, {
      context: sessionContext,
      subscribe: true,
      callback: (session) => this.follow(session),
    });
    host.addController(this);
    this.sight = new Sight(host, () => takeTurns.hurry(this));
  }

  get session(): Session | undefined {
    return this.held;
  }

  /** The newest finished value; `undefined` before the first. */
  get value(): T | undefined {
    return this.worked;
  }

  /** What the newest work failed with; `undefined` while all is well. */
  get error(): unknown {
    return this.failure;
  }

  /** Works again, also without a notice: a choice of the element itself has changed. */
  again(): void {
    this.current?.abort();
    const session = this.held;
    if (!session) return;
    const controller = new AbortController();
    this.current = controller;
    takeTurns.add(this, {
      isInSight: () => this.sight.isIn,
      signal: controller.signal,
      run: () => this.run(session, controller.signal),
    });
  }

  hostConnected(): void {
    this.sight.watch();
    if (this.held) this.follow(this.held);
  }

  hostDisconnected(): void {
    this.sight.leave();
    this.current?.abort();
    this.stop?.();
    this.stop = undefined;
  }

  private follow(session: Session | undefined): void {
    this.stop?.();
    this.stop = undefined;
    if (session !== this.held) this.worked = undefined;
    this.held = session;
    if (!session) return;
    this.stop = session.subscribe((notice) => {
      if (this.when(notice, session)) this.again();
    });
    this.again();
  }

  private async run(session: Session, signal: AbortSignal): Promise<void> {
    try {
      const value = await this.work(session, signal);
      if (signal.aborted) return;
      this.worked = value;
      this.failure = undefined;
    } catch (error) {
      if (signal.aborted) return;
      this.failure = error;
    }
    this.host.requestUpdate();
  }
}
