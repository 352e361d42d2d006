import { afterEach, describe, expect, it } from 'vitest';
import { speak } from '../../src/text/say.ts';
import { wordList } from '../../src/treating/word-list.ts';

afterEach(() => speak({ language: 'en', locale: 'en-GB', sentences: {} }));

describe('wordList(words)', () => {
  it.each([
    [[], ''],
    [['A'], 'A'],
    [['A', 'B'], 'A and B'],
    [['A', 'B', 'C'], 'A, B and C'],
  ])('%j', (words, list) => {
    expect(wordList(words)).toBe(list);
  });

  it('joins in the language spoken, English alike in every country', () => {
    speak({ language: 'es', locale: 'es-PE', sentences: {} });
    expect(wordList(['oveja', 'cordero', 'carnero'])).toBe('oveja, cordero y carnero');
    // Spanish grammar (Real Academia Española): "y" becomes "e" before the sound i.
    expect(wordList(['blanca', 'Inés'])).toBe('blanca e Inés');
    speak({ language: 'en', locale: 'en-US', sentences: {} });
    expect(wordList(['A', 'B', 'C'])).toBe('A, B and C');
  });
});
