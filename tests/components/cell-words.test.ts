import { beforeAll, describe, expect, it } from 'vitest';
import type * as CellWords from '../../components/cell-words.ts';
import type * as GridChoices from '../../components/grid-choices.ts';
import type { Column } from '../../shared/notebook.ts';
import { speak } from '../../src/text/say.ts';

const count: Column = { id: 'c', key: 'chamber1', kind: 'count' };
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
      'too many': 'demasiados',
      'not sampled': 'sin muestra',
      lost: 'perdida',
    },
  });
  words = await import('../../components/cell-words.ts');
  choices = await import('../../components/grid-choices.ts');
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
