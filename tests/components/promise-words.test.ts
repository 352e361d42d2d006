import { describe, expect, it } from 'vitest';
import { keepingWords } from '../../components/promise-words.ts';
import type { Services } from '../../components/services.ts';

function words(promise: string, isReady?: boolean): string {
  const offline = isReady === undefined ? {} : { offline: { isReady } };
  return keepingWords({ promise: () => promise, ...offline } as Partial<Services> as Services);
}

describe('what can be relied on, in words', () => {
  it('speaks of opening without the network once the page is kept for that, and not before', () => {
    expect(words('Kept.', true)).toBe('Kept. This page now opens without the network too.');
    expect(words('Kept.', false)).toBe('Kept.');
    expect(words('Kept.')).toBe('Kept.');
  });

  it('says either alone', () => {
    expect(words('', true)).toBe('This page now opens without the network too.');
    expect(words('')).toBe('');
  });
});
