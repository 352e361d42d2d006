import { beforeAll, describe, expect, it } from 'vitest';
import type * as CellWords from '../../components/cell-words.ts';
import type * as GridChoices from '../../components/grid-choices.ts';
import type { Column } from '../../shared/notebook.ts';
import type { Reading } from '../../shared/reading.ts';
import { speak } from '../../src/text/say.ts';
import { parseReading } from '../../src/text/parse-reading.ts';

const typing = { decimalMark: ',', weightUnit: 'kg' } as const;
const count: Column = { id: 'c', key: 'chamber1', kind: 'count' };
const tick: Column = { id: 't', key: 'bottle_jaw', kind: 'tick' };
const status: Column = {
  id: 's',
  key: 'status',
  kind: 'choice',
  words: ['sampled', 'not sampled', 'lost'],
};

/** The sentences are looked up as the modules load, so the language is fixed before. */
let words: typeof CellWords;
let choices: typeof GridChoices;

beforeAll(async () => {
  speak({
    language: 'es',
    locale: 'es-PE',
    sentences: {
      yes: 'sí',
      seen: 'visto',
      'not seen': 'no visto',
      'too many': 'demasiados',
      'not sampled': 'sin muestra',
      lost: 'perdida',
    },
  });
  words = await import('../../components/cell-words.ts');
  choices = await import('../../components/grid-choices.ts');
});

function stored(column: Column, typed: string): Reading | null {
  return parseReading(column, words.storedWord(column, typed), typing);
}

describe('storedWord(column, typed)', () => {
  it('stores a word of the language by the one that formulas and files know', () => {
    expect(stored(count, 'Demasiados')).toEqual({ kind: 'too-many', text: 'too many' });
    expect(stored(tick, 'si')).toEqual({ kind: 'tick', text: 'yes', value: true });
    expect(stored(tick, 'No visto')).toEqual({ kind: 'tick', text: 'no', value: false });
    expect(stored(status, 'sin muestra')).toEqual({ kind: 'text', text: 'not sampled' });
  });

  it('leaves everything else as it was typed', () => {
    expect(words.storedWord(count, 'Too Many')).toBe('Too Many');
    expect(words.storedWord(count, '12?')).toBe('12?');
    expect(words.storedWord({ key: 'note', kind: 'text' }, 'perdida')).toBe('perdida');
  });
});

describe('typedShown(column, reading)', () => {
  it('shows a stored word in the language spoken, and what was typed otherwise as it was', () => {
    expect(words.typedShown(status, { kind: 'text', text: 'lost' })).toBe('perdida');
    expect(words.typedShown(count, { kind: 'too-many', text: 'too many' })).toBe('demasiados');
    expect(words.typedShown(count, { kind: 'too-many', text: 'TNTC' })).toBe('TNTC');
    expect(words.typedShown({ key: 'note' }, { kind: 'text', text: 'lost' })).toBe('lost');
  });
});

describe('choicesOf(status)', () => {
  it('offers the word shown and types the word stored', () => {
    expect(choices.choicesOf(status)[1]).toEqual({ text: 'not sampled', words: 'sin muestra' });
  });
});
