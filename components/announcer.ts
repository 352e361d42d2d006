import type { ReactiveController, ReactiveElement } from 'lit';

/** Least time between two announcements, milliseconds: a listener must be able to follow. */
export const announcePause = 1000;

/** A sentence, or what makes it: made only where it is said, as of then. */
export type Words = string | (() => string);

/**
 * The words of an element's `role="status"` region. Says at most one sentence a second; of those that
 * come faster, the newest is said and the ones between are passed over.
 */
export class Announcer implements ReactiveController {
  private said = '';
  private waiting: Words | null = null;
  private timer: ReturnType<typeof setTimeout> | null = null;

  /** `shown`: puts the new text into the region, where drawing the whole element for it would be too much. */
  constructor(
    host: ReactiveElement,
    private readonly shown: (text: string) => void = () => host.requestUpdate(),
  ) {
    host.addController(this);
  }

  /** What the region shows. */
  get text(): string {
    return this.said;
  }

  say(sentence: Words): void {
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

  private show(words: Words): void {
    const sentence = typeof words === 'string' ? words : words();
    // The same words again are no change to a screen reader; an unseen mark makes them one.
    this.said = sentence !== '' && sentence === this.said ? `${sentence}\u200b` : sentence;
    this.shown(this.said);
    this.timer = setTimeout(() => {
      this.timer = null;
      const { waiting } = this;
      this.waiting = null;
      if (waiting !== null) this.show(waiting);
    }, announcePause);
  }
}
