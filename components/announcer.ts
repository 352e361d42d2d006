import type { ReactiveController, ReactiveElement } from 'lit';

/** Least time between two announcements, milliseconds: a listener must be able to follow. */
export const announcePause = 1000;

/**
 * The words of an element's `role="status"` region. Says at most one sentence a second; of those that
 * come faster, the newest is said and the ones between are passed over.
 */
export class Announcer implements ReactiveController {
  private said = '';
  private waiting: string | null = null;
  private timer: ReturnType<typeof setTimeout> | null = null;

  constructor(private readonly host: ReactiveElement) {
    host.addController(this);
  }

  /** What the region shows. */
  get text(): string {
    return this.said;
  }

  say(sentence: string): void {
    if (this.timer !== null) {
      this.waiting = sentence;
      return;
    }
    this.show(sentence);
  }

  hostDisconnected(): void {
    if (this.timer !== null) clearTimeout(this.timer);
    this.timer = null;
    this.waiting = null;
  }

  private show(sentence: string): void {
    // The same words again are no change to a screen reader; an unseen mark makes them one.
    this.said = sentence !== '' && sentence === this.said ? `${sentence}\u200b` : sentence;
    this.host.requestUpdate();
    this.timer = setTimeout(() => {
      this.timer = null;
      const { waiting } = this;
      this.waiting = null;
      if (waiting !== null) this.show(waiting);
    }, announcePause);
  }
}
