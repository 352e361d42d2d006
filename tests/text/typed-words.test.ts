import { beforeAll, describe, expect, it } from 'vitest';
import type { Column } from '../../shared/notebook.ts';
import type * as ParseReading from '../../src/text/parse-reading.ts';
import { speak } from '../../src/text/say.ts';

const typing = { decimalMark: ',', weightUnit: 'kg' } as const;
const count: Column = { id: 'c', key: 'chamber1', kind: 'count' };
const tick: Column = { id: 't', key: 'bottle_jaw', kind: 'tick' };
const status: Column = {
  id: 's',
  key: 'status',
  kind: 'choice',
  words: ['sampled', 'not sampled', 'lost'],
};

/** The words are gathered as the module loads, so the language is fixed before. */
let reading: typeof ParseReading;

beforeAll(async () => {
  speak({
    language: 'es',
    locale: 'es-PE',
    sentences: {
      yes: 'sí',
      'no, n, false, not seen': 'no, n, falso, no visto, no se vio',
      'too many': 'demasiados',
      'too many, too many to count, uncountable': 'demasiados para contar, incontables',
      'not sampled': 'sin muestra',
      'not sampled, no sample, ns': 'sin muestra, no muestreado, sm',
      lost: 'perdida',
      // A word of the language that is an English one of another meaning: files are full of the English.
      'spoiled, spoilt': 'estropeada, lost',
      '"{text}" is not one of: {words}.': '"{text}" no es ninguno de: {words}.',
    },
  });
  reading = await import('../../src/text/parse-reading.ts');
});

describe('a status typed in the language spoken', () => {
  it.each([
    ['Sin muestra', 'not sampled'],
    ['sm', 'not sampled'],
    ['perdida', 'lost'],
    ['not sampled', 'not sampled'],
    ['ns', 'not sampled'],
    ['lost', 'lost'],
  ])('%s is stored as the code %s', (typed, code) => {
    expect(reading.parseReading(status, typed, typing)).toEqual({ kind: 'text', text: code });
    expect(reading.statusInCount(typed)).toBe(code);
  });

  it('is a fault that names the words of the language where it is none of them', () => {
    expect(reading.parseReading(status, 'constructor', typing)).toEqual({
      kind: 'fault',
      text: 'constructor',
      // What is not translated yet stays English.
      reason: '"constructor" no es ninguno de: sampled, sin muestra, perdida.',
    });
  });
});

describe('more eggs than could be counted, in the language spoken', () => {
  it('is stored by the code, which every other language reads again', () => {
    for (const typed of ['Demasiados', 'demasiados para contar', 'incontables'])
      expect(reading.parseReading(count, typed, typing)).toEqual({
        kind: 'too-many',
        text: 'too many',
      });
  });

  it('stays as typed where it was typed in English', () => {
    expect(reading.parseReading(count, 'TNTC', typing)).toEqual({ kind: 'too-many', text: 'TNTC' });
  });
});

describe('yes and no in the language spoken', () => {
  it.each([
    ['sí', 'yes', true],
    ['Si', 'yes', true],
    ['no se vio', 'no', false],
    ['falso', 'no', false],
    ['yes', 'yes', true],
    ['x', 'x', true],
    ['0', '0', false],
  ])('%s is stored as %s', (typed, text, value) => {
    expect(reading.parseReading(tick, typed, typing)).toEqual({ kind: 'tick', text, value });
  });

  it('are nothing else', () => {
    expect(reading.parseReading(tick, 'quizás', typing)).toMatchObject({ kind: 'fault' });
  });
});
