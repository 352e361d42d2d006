import { afterEach, describe, expect, it } from 'vitest';
import { dateWords } from '../../src/text/date-words.ts';
import { speak } from '../../src/text/say.ts';

afterEach(() => speak({ language: 'en', locale: 'en-GB', sentences: {} }));

describe('dateWords(date, form)', () => {
  // How Unicode's CLDR writes the long date of each place.
  it.each([
    ['en-GB', '4 September 2026'],
    ['en-US', 'September 4, 2026'],
    ['es-ES', '4 de septiembre de 2026'],
  ])('in %s: %s', (locale, words) => {
    speak({ language: locale.slice(0, 2), locale, sentences: {} });
    expect(dateWords('2026-09-04')).toBe(words);
  });

  it('leaves the year out where it is known, and shortens the month where room is scarce', () => {
    expect(dateWords('2026-05-03', 'long without year')).toBe('3 May');
    expect(dateWords('2026-07-19', 'short')).toBe('19 Jul 2026');
  });

  it('is of the day that is written, whatever the time zone', () => {
    // 1 January and 31 December are where a slip of hours shows.
    expect(dateWords('2026-01-01')).toBe('1 January 2026');
    expect(dateWords('2025-12-31')).toBe('31 December 2025');
  });

  it('gives back what is no date', () => {
    expect(dateWords('2026-02-30')).toBe('2026-02-30');
    expect(dateWords('some day')).toBe('some day');
  });
});
