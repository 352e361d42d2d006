import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import { notInFileWords } from '../../components/backup-words.ts';
import { placeWords, valueWords } from '../../components/clash-words.ts';
import { bringWords, doneWords } from '../../components/merge-words.ts';
import { carriedWords } from '../../components/season-carry-words.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';

const notebook: Notebook = applyEdit(
  emptyNotebook('n'),
  {
    label: 'a test',
    source: 'typed',
    sets: [
      ...setsOf('animals', 'a1', { tag: 'K-019' }),
      ...setsOf('columns', 'c1', { key: 'chamber1', label: 'chamber 1', kind: 'count' }),
      ...setsOf('days', '2026-05-03', { date: '2026-05-03' }),
      ...setsOf('limits', 'l1', { key: 'treat_from', label: 'Treat from' }),
      ...setsOf('treatments', 't1', { animal: 'a1', date: '2026-05-04' }),
      ...setsOf('cups', 'cup1', { day: '2026-05-03', number: 7 }),
    ],
  },
  [1, 0, 'bench'],
).notebook;

describe('placeWords(notebook, path)', () => {
  it.each([
    [['readings', '2026-05-03', 'a1', 'c1'], 'K-019 · chamber 1 · 3 May 2026'],
    [['readings', '2026-05-03', 'cup1', 'c1'], 'cup 7 · chamber 1 · 3 May 2026'],
    [['animals', 'a1', 'leftWhy'], 'K-019 · why it left'],
    [['groups', 'a1', '2026-05-01'], 'K-019 · group from 1 May 2026'],
    [['settings', 'default', 'l1'], 'Treat from · for new days'],
    [['days', '2026-05-03', 'fluidMl'], '3 May 2026 · fluid ml'],
    [['days', '2026-06-07-evening', 'grams'], '7 June 2026 evening · grams'],
    [['treatments', 't1', 'doseMl'], 'treatment of K-019 on 4 May 2026 · dose ml'],
    [['about', 'notebook', 'title'], 'the notebook · title'],
  ] as const)('says %j as a person does', (path, words) => {
    expect(placeWords(notebook, path)).toBe(words);
  });
});

describe('valueWords(value)', () => {
  it('shows what was typed, as it was typed', () => {
    expect(valueWords({ kind: 'number', text: '05', value: 5 })).toBe('05');
    expect(valueWords({ kind: 'over', text: '>40', value: 40 })).toBe('>40');
    expect(valueWords({ kind: 'tick', value: false, text: 'n' })).toBe('no');
    expect(valueWords(null)).toBe('nothing');
    const path = ['readings', '2026-05-03', 'a1', 'c1'] as const;
    expect(valueWords({ kind: 'too-many', text: 'tntc' }, notebook, path)).toBe('tntc');
    expect(valueWords('ewe', notebook, ['animals', 'a1', 'class'])).toBe('ewe');
  });

  it('puts decisions, criteria and withdrawals into words', () => {
    expect(valueWords({ treat: false, reason: 'lame', values: {} })).toBe('leave untreated: lame');
    expect(valueWords([{ reason: 'pale' }, { reason: 'thin' }])).toBe('pale, thin');
    expect(valueWords([])).toBe('none');
    expect(valueWords({ kind: 'days', days: 14 })).toBe('14 days');
    expect(valueWords({ kind: 'not permitted' })).toBe('not permitted');
  });
});

describe('words of a merge', () => {
  const nothing = { readings: 0, counts: 0, days: [], animals: [], treatments: 0, other: 0 };

  it('has a line for each kind of thing, and none where nothing comes', () => {
    expect(bringWords(notebook, nothing)).toEqual([]);
    expect(
      bringWords(notebook, {
        ...nothing,
        readings: 12,
        counts: 8,
        days: ['2026-05-03'],
        animals: ['a1'],
        treatments: 1,
      }),
    ).toEqual([
      '12 readings, 8 of them counts',
      '1 sampling day: 3 May 2026',
      '1 animal: K-019',
      '1 treatment',
    ]);
  });

  it('names six animals and counts the rest', () => {
    const animals = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'];
    expect(bringWords(notebook, { ...nothing, animals })).toEqual([
      '8 animals: a, b, c, d, e, f and 2 more',
    ]);
  });

  it('says at the end how many places still differ', () => {
    expect(doneWords('phone.json', { ...nothing, readings: 1 }, 2)).toBe(
      'phone.json is brought in: 1 reading. At 2 places the copies differ: choose there, under More.',
    );
  });
});

describe('carriedWords(carried)', () => {
  it('says who goes on, who stays behind and what still bears on the season', () => {
    expect(carriedWords({ animals: 38, gone: 2, groups: 3, treatments: 1 })).toBe(
      '38 animals in 3 groups are carried over; 2 that have left stay behind. 1 treatment comes along: not clear by then, or still showing in counts.',
    );
    expect(carriedWords({ animals: 1, gone: 0, groups: 0, treatments: 0 })).toBe(
      '1 animal is carried over.',
    );
  });
});

describe('notInFileWords(counts)', () => {
  it('is silent about none, and about what is not known', () => {
    expect([0, undefined, 1, 1200].map(notInFileWords)).toEqual([
      '',
      '',
      '1 count in no file',
      '1,200 counts in no file',
    ]);
  });
});
