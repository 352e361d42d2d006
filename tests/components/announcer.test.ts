import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Announcer, announceGrace, announcePause, type Words } from '../../components/announcer.ts';

const host = { addController: () => undefined } as unknown as ConstructorParameters<
  typeof Announcer
>[0];

describe('Announcer', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  function listen(): { said: string[]; announcer: Announcer; say: (words: Words) => void } {
    const said: string[] = [];
    const announcer = new Announcer(host, (text) => said.push(text));
    return { said, announcer, say: (words) => announcer.say(words) };
  }

  it('says one sentence at once, and of those that follow within the pause the newest, once', () => {
    const { said, say } = listen();
    say('first');
    say('second');
    say('third');
    expect(said).toEqual(['first']);
    vi.advanceTimersByTime(announcePause + announceGrace);
    expect(said).toEqual(['first', 'third']);
    vi.advanceTimersByTime(10 * announcePause);
    expect(said).toEqual(['first', 'third']);
  });

  it('says a sentence that comes just after the pause along with its own key, in place of what waited', () => {
    const { said, say } = listen();
    say('first');
    say('second');
    vi.advanceTimersByTime(announcePause + announceGrace / 2);
    expect(said).toEqual(['first']);
    say('third');
    expect(said).toEqual(['first', 'third']);
    vi.advanceTimersByTime(10 * announcePause);
    expect(said).toEqual(['first', 'third']);
  });

  it('keeps the pause between any two sentences, however fast they come', () => {
    const at: number[] = [];
    const counted = new Announcer(host, () => at.push(Date.now()));
    for (let i = 0; i < 100; i += 1) {
      counted.say(`${i}`);
      vi.advanceTimersByTime(90);
    }
    expect(at.length).toBeGreaterThan(5);
    at.slice(1).forEach((time, i) =>
      expect(time - (at[i] ?? 0)).toBeGreaterThanOrEqual(announcePause),
    );
  });

  it('makes a sentence only where it is said, as of then', () => {
    const { said, say } = listen();
    let count = 0;
    say('first');
    say(() => `never ${(count += 1)}`);
    say(() => `counted ${(count += 1)}`);
    vi.advanceTimersByTime(announcePause + announceGrace);
    expect(said).toEqual(['first', 'counted 1']);
  });

  it('says nothing more once its element is gone, and marks the same words so that they are heard again', () => {
    const { said, say, announcer } = listen();
    say('the same');
    say('the same');
    vi.advanceTimersByTime(announcePause + announceGrace);
    expect(said).toEqual(['the same', 'the same\u200b']);
    say('later');
    announcer.hostDisconnected();
    vi.advanceTimersByTime(10 * announcePause);
    expect(said).toHaveLength(2);
  });
});
