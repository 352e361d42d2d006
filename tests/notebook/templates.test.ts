import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import type { Template } from '../../shared/template.ts';
import { isFault } from '../../shared/value.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { addAnimals, leaveFarm, moveToGroup } from '../../src/notebook/edit-animals.ts';
import { demoNotebook } from '../../src/notebook/demo.ts';
import { fromTemplate, type Making } from '../../src/notebook/from-template.ts';
import { nextSeason, treatmentsInForce } from '../../src/notebook/next-season.ts';
import { groupOn } from '../../src/notebook/present.ts';
import { readTemplate, readTemplateText } from '../../src/notebook/read-template.ts';
import { animalsOf, columnsOf, daysOf, readingOf, treatmentsOf } from '../../src/notebook/read.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';
import { toTemplate } from '../../src/notebook/to-template.ts';

const folder = join(import.meta.dirname, '..', '..', 'templates');
const files = readdirSync(folder);
const read = (file: string) => readTemplateText(readFileSync(join(folder, file), 'utf8'));
const making: Making = {
  id: 'n',
  title: 'Test',
  stamp: [1, 0, 'bench'],
  bind: (_, shown) => shown,
};

function summer(): Template {
  const template = read('summer-grazing.json');
  if (isFault(template)) throw new Error(template.sentence);
  return template;
}

describe('the season templates', () => {
  it('are at least eight, each named after its file', () => {
    expect(files.length).toBeGreaterThanOrEqual(8);
    for (const file of files) expect(read(file)).toMatchObject({ id: file.replace('.json', '') });
  });

  it('mean the same by the same key: kind, unit and formula agree between seasons', () => {
    const meaning = new Map<string, string>();
    for (const file of files) {
      const template = read(file);
      if (isFault(template)) throw new Error(template.sentence);
      for (const { key, kind, unit, formula } of template.columns) {
        const now = JSON.stringify({ kind, unit, formula });
        expect(meaning.get(key) ?? now, `${key} in ${file}`).toBe(now);
        meaning.set(key, now);
      }
    }
  });

  it('name no product and no dose: limits are of counts, shares and reductions only', () => {
    for (const file of files) {
      const text = readFileSync(join(folder, file), 'utf8');
      expect(text).not.toMatch(/\bmg\b|mg\/kg|mL per/i);
      expect(text).not.toMatch(/\w+(zole|mectin|misole|antel)\b/i);
    }
  });
});

describe('readTemplate(json)', () => {
  const broken: readonly [string, (template: Record<string, unknown>) => void, RegExp][] = [
    ['another format', (t) => (t['format'] = 'x'), /not a template/],
    ['a newer version', (t) => (t['version'] = 2), /newer version/],
    ['columns that are no list', (t) => (t['columns'] = {}), /columns are not a list/],
    ['a protocol of 0 g', (t) => (t['protocol'] = { grams: 0 }), /protocol › grams/],
    ['a key twice', (t) => (t['limits'] = [{ key: 'epg', label: 'x', value: 1 }]), /"epg" twice/],
    ['a limit without number', (t) => (t['limits'] = [{ key: 'x', label: 'x' }]), /limits › 1/],
  ];
  it.each(broken)('names the place of %s', (_, spoil, sentence) => {
    const template = structuredClone(summer()) as unknown as Record<string, unknown>;
    spoil(template);
    expect(readTemplate(template)).toMatchObject({
      sentence: expect.stringMatching(sentence) as string,
    });
  });

  it('says so of a file that is not JSON', () => {
    expect(readTemplateText('tag;kg')).toMatchObject({
      sentence: expect.stringMatching(/JSON/) as string,
    });
  });
});

describe('toTemplate(notebook)', () => {
  it('gives back what a notebook was started from', () => {
    const template = summer();
    const { id, name, purpose } = template;
    const again = toTemplate(fromTemplate(template, making), { id, name, purpose }, (_, s) => s);
    const plain = JSON.parse(JSON.stringify(again)) as Template;
    expect(plain.columns.map(({ about: _, ...column }) => column)).toEqual(
      template.columns.map(({ about: _, ...column }) => column),
    );
    expect(plain.criteria).toEqual(
      template.criteria.map((criterion) => ({ mustBeKnown: false, ...criterion })),
    );
    for (const part of ['protocol', 'limits', 'figures', 'checkList'] as const)
      expect(plain[part]).toEqual(template[part]);
    expect(readTemplate(plain)).toBe(plain);
  });
});

describe('nextSeason(old, template)', () => {
  it('carries over animals still here with their groups, and leaves old days behind', () => {
    let old = fromTemplate(summer(), making);
    const added = addAnimals(
      old,
      [{ tag: 'A1' }, { tag: 'A2' }],
      (
        (n) => () =>
          `a${(n += 1)}`
      )(0),
      '2026-01-01',
    );
    if (isFault(added)) throw new Error(added.sentence);
    for (const edit of [added, moveToGroup(old, ['a1'], 'lambs', '2026-03-01')])
      old = applyEdit(old, edit, [2, 0, 'bench']).notebook;
    old = applyEdit(old, moveToGroup(old, ['a1'], 'ewes', '2026-09-01'), [3, 0, 'b']).notebook;
    old = applyEdit(old, leaveFarm(old, ['a2'], '2026-10-01', 'sold'), [4, 0, 'bench']).notebook;
    const next = nextSeason(old, summer(), { ...making, id: 'n2' }, '2027-03-01');
    expect(animalsOf(next).map((animal) => animal.tag)).toEqual(['A1']);
    expect(groupOn(next, 'a1', '2027-03-01')).toBe('ewes');
    expect(daysOf(next)).toEqual([]);
  });
});

describe('treatmentsInForce(old, from)', () => {
  const treated = (facts: object): Notebook =>
    applyEdit(
      fromTemplate(summer(), making),
      {
        label: 'a test',
        source: 'typed',
        sets: [
          ...setsOf('animals', 'a1', { tag: 'A1' }),
          ...setsOf('products', 'p1', { name: 'white drench', afterDays: 14 }),
          ...setsOf('treatments', 't1', {
            animal: 'a1',
            product: 'p1',
            date: '2027-02-01',
            ...facts,
          }),
        ],
      },
      [2, 0, 'bench'],
    ).notebook;
  const clear = { meatClear: '2027-02-20', milkClear: '2027-02-10' };

  it.each([
    ['carries one whose meat is not clear by then', clear, '2027-02-19', 1],
    ['leaves one that is clear on the day, and no longer shows', clear, '2027-02-20', 0],
    [
      'carries one that still shows in counts',
      { ...clear, meatClear: '2027-02-02' },
      '2027-02-15',
      1,
    ],
    ['leaves it a day later', { ...clear, meatClear: '2027-02-02' }, '2027-02-16', 0],
    [
      'carries one never permitted for meat',
      { ...clear, meatClear: 'not permitted' },
      '2028-01-01',
      1,
    ],
    [
      'carries one without a clear date: only a vet can say',
      { milkClear: '2027-02-10' },
      '2028-01-01',
      1,
    ],
    ['leaves one of an animal that has gone', { ...clear, animal: 'a2' }, '2027-02-02', 0],
  ])('%s', (_, facts, from, many) => {
    const old = treated(facts);
    expect(treatmentsInForce(old, from)).toHaveLength(many);
    const next = nextSeason(old, summer(), { ...making, id: 'n2' }, from);
    expect(treatmentsOf(next)).toHaveLength(many);
  });
});

describe('the demo', () => {
  const demo = demoNotebook(summer(), [1, 0, 'demo'], (_, shown) => shown);

  it('has about 40 animals of three groups on four days', () => {
    expect(animalsOf(demo)).toHaveLength(40);
    expect(daysOf(demo)).toHaveLength(4);
    const groups = new Set(animalsOf(demo).map((a) => groupOn(demo, a.id, '2026-07-19')));
    expect([...groups].sort()).toEqual(['ewes', 'goats', 'lambs']);
  });

  it('reads every line of its own as typed, without a fault', () => {
    for (const day of daysOf(demo))
      for (const animal of animalsOf(demo))
        for (const column of columnsOf(demo)) {
          const reading = readingOf(demo, day.id, animal.id, column.id);
          expect(reading?.kind, `${animal.tag} ${day.id} ${column.key}`).not.toBe('fault');
        }
  });

  it('has the odd cups that a person should meet', () => {
    const on = (tag: string, key: string) => readingOf(demo, '2026-07-19', `a-${tag}`, `c-${key}`);
    expect(on('G-013', 'chamber1')).toMatchObject({ kind: 'too-many' });
    expect(on('W-107', 'status')).toMatchObject({ text: 'spoiled' });
    expect(on('L-003', 'chamber1')).toMatchObject({ kind: 'number' });
    expect(on('L-003', 'chamber2')).toBeUndefined();
    expect(on('L-011', 'eyelid')).toMatchObject({ value: 4 });
    expect(on('L-011', 'chamber1')).toBeUndefined();
  });
});
