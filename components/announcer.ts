import type { ReactiveController, ReactiveElement } from 'lit';

/** Least time between two announcements, milliseconds: a listener must be able to follow. */
export const announcePause = 1000;

/**
 * After the pause, time left for one more sentence, milliseconds: with keys that follow each other the newest is
 * then shown along with what the next key draws, not in a drawing of its own.
 */
export const announceGrace = 150;

/** A sentence, or what makes it: made only where it is said, as of then. */
export type Words = string | (() => string);

/**
 * The words of an element's `role="status"` region. Says at most one sentence a second; of those that
 * come faster, the newest is said and the ones between are passed over.
 */
export class Announcer implements ReactiveController {
  private said = '';
  private waiting: Words | null = null;
  /** While it runs nothing is said. */
  private pause: ReturnType<typeof setTimeout> | null = null;
  /** What waits is said when it ends, unless something newer comes. */
  private grace: ReturnType<typeof setTimeout> | null = null;

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
    if (this.pause === null) this.show(sentence);
    else this.waiting = sentence;
  }

  hostDisconnected(): void {
    this.stop();
    this.waiting = null;
  }

  private stop(): void {
    if (this.pause !== null) clearTimeout(this.pause);
    if (this.grace !== null) clearTimeout(this.grace);
    this.pause = null;
    this.grace = null;
  }

  private show(words: Words): void {
    this.stop();
    this.waiting = null;
    const sentence = typeof words === 'string' ? words : words();
    // The same words again are no change to a screen reader; an unseen mark makes them one.
    this.said = sentence !== '' && sentence === this.said ? `${sentence}\u200b` : sentence;
    this.shown(this.said);
    this.pause = setTimeout(() => this.endPause(), announcePause);
  }

  private endPause(): void {
    this.pause = null;
    const { waiting } = this;
    if (waiting !== null) this.grace = setTimeout(() => this.show(waiting), announceGrace);
  }
}
