import { ContextConsumer } from '@lit/context';
import type { ReactiveController, ReactiveElement } from 'lit';
import type { Notice, Session } from '../src/session/session.ts';
import { sessionContext } from './session-context.ts';

/** What makes a selector look again, and how it knows that nothing changed. */
export interface SelectOptions<T> {
  /** Look only at notices this says yes to; all of them unless given. */
  readonly when?: (notice: Notice, session: Session) => boolean;
  /** Also look again when what is known about saving changed. */
  readonly saved?: boolean;
  /** Whether two selected values are the same; `Object.is` unless given. */
  readonly same?: (a: T, b: T) => boolean;
}

/**
 * One value out of the session, for one element: subscribes while the element is connected, selects
 * again at each notice, and asks for an update only when the value differs. So a selector should give
 * the same object for the same content (the readers of `src/notebook` do).
 *
 *     private readonly title = new Select(this, (session) => aboutOf(session.notebook).title);
 *     render() { return html`<h1>${this.title.value}</h1>`; }
 */
export class Select<T> implements ReactiveController {
  private selected: T | undefined;
  private held: Session | undefined;
  private stop: (() => void) | undefined;
  private readonly consumer: ContextConsumer<typeof sessionContext, ReactiveElement>;

  constructor(
    private readonly host: ReactiveElement,
    private readonly select: (session: Session) => T,
    private readonly options: SelectOptions<T> = {},
  ) {
    this.consumer = new ContextConsumer(host, {
      context: sessionContext,
      subscribe: true,
      callback: (session) => this.change(session),
    });
    host.addController(this);
  }

  /** The session given from above; `undefined` until there is one. */
  get session(): Session | undefined {
    return this.held;
  }

  /** What was selected last; `undefined` until there is a session. */
  get value(): T | undefined {
    return this.selected;
  }

  hostConnected(): void {
    if (this.held) this.follow(this.held);
    else if (this.consumer.value) this.follow(this.consumer.value);
  }

  hostDisconnected(): void {
    this.stop?.();
    this.stop = undefined;
  }

  private change(session: Session | undefined): void {
    if (session) {
      this.follow(session);
    } else if (this.held) {
      this.hostDisconnected();
      this.held = undefined;
      this.selected = undefined;
      this.host.requestUpdate();
    }
  }

  private follow(session: Session): void {
    this.stop?.();
    const isOther = this.held !== session;
    this.held = session;
    const stops = [
      session.subscribe((notice) => {
        if (this.options.when?.(notice, session) ?? true) this.look(session);
      }),
    ];
    if (this.options.saved) stops.push(session.subscribeSaved(() => this.look(session)));
    this.stop = () => stops.forEach((stop) => stop());
    if (isOther) this.host.requestUpdate();
    this.look(session);
  }

  private look(session: Session): void {
    const value = this.select(session);
    const same = this.options.same ?? Object.is;
    if (this.selected !== undefined && same(this.selected, value)) return;
    if (this.selected === undefined && value === undefined) return;
    this.selected = value;
    this.host.requestUpdate();
  }
}
