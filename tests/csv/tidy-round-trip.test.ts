import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SetTo } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import type { Reading } from '../../shared/reading.ts';
import { isFault } from '../../shared/value.ts';
import { tidyText } from '../../src/csv/export-tidy.ts';
import { planToEdit } from '../../src/csv/import-edit.ts';
import { isNotebookHeading } from '../../src/csv/import-roles.ts';
import { tidyHeadings } from '../../src/csv/own-file.ts';
import { planNow } from '../../src/csv/plan-import.ts';
import { readTable } from '../../src/csv/read-table.ts';
import type { WriteOptions } from '../../src/csv/write-table.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { newest } from '../../src/notebook/cell.ts';
import { animalsOf, columnsOf, daysOf } from '../../src/notebook/read.ts';
import { canonicalTag } from '../../src/text/tag.ts';
import { parseReading } from '../../src/text/parse-reading.ts';
import { edited, nextStamp, summerNotebook } from '../build-notebook.ts';

const days = ['2026-05-03', '2026-05-03-evening', '2026-06-14'];

/** Every reading of a notebook, by tag, day and column key. */
function readings(notebook: Notebook): Record<string, Reading> {
  const found: Record<string, Reading> = {};
  for (const { id: day } of daysOf(notebook))
    for (const { id: row, tag } of animalsOf(notebook))
      for (const { id, key } of columnsOf(notebook)) {
        const reading = newest(notebook.readings[day]?.[row]?.[id]);
        if (reading) found[`${tag}\n${day}\n${key}`] = reading;
      }
  return found;
}

/** The same notebook without animals, days and readings: what a file is read back into. */
function emptied(notebook: Notebook): Notebook {
  return { ...notebook, animals: {}, days: {}, readings: {}, settings: {}, groups: {}, bench: {} };
}

async function there(notebook: Notebook, options: WriteOptions): Promise<string> {
  const engine = createEngine(() => Promise.resolve());
  return tidyText(
    notebook,
    engine,
    daysOf(notebook).map(({ id }) => id),
    options,
  );
}

function andBack(text: string, empty: Notebook): Notebook {
  let ids = 0;
  const bytes = new TextEncoder().encode(text);
  const table = readTable(bytes, { isHeading: isNotebookHeading(empty) });
  const plan = planNow(table, empty, { newId: () => `n${(ids += 1)}` });
  expect(plan.problems.filter(({ what }) => what === 'left out')).toEqual([]);
  expect(plan.questions).toEqual([]);
  const edit = planToEdit(empty, plan, 'tidy.csv');
  if (isFault(edit)) return empty;
  return applyEdit(empty, edit, nextStamp()).notebook;
}

/** Texts as people type them into any cell, sense and nonsense. */
const cell = fc.oneof(
  fc.constantFrom(
    ...[
      '0',
      '7',
      '12',
      '>40',
      '<5',
      'TNTC',
      '12?',
      '+',
      '++',
      'less than 200',
      '3/6',
      '0.5',
      '0,5',
    ],
    ...['2.5', '2,5', '-', 'x', 'pooled', 'sampled', 'not sampled', 'yes', 'no', '41.5', '41,5 kg'],
    ...[
      '91 lb',
      '1e3',
      '=1+1',
      "'quoted",
      "''",
      "'0123",
      '@Nell',
      '-100',
      '0123',
      '3-4-26',
      '1.50',
    ],
    ...[
      'a "b" c',
      '"',
      'two\nlines',
      'two\r\nlines',
      '\rx',
      'semi;colon',
      'com,ma',
      'tab\tbed',
      ' lead',
    ],
    ...['sep=;', '\ufeffmark', 'TRUE', '9E5', '982000123456789', '#REF!', 'Zoë', '🐑'],
  ),
  fc.string({ unit: 'grapheme', maxLength: 12 }),
);
const tag = fc
  .oneof(
    fc.constantFrom(
      '0123',
      '982000123456789',
      'FF-04-117',
      '9E5',
      '1.5.2',
      '=A1',
      "'7",
      'TRUE',
      'a b',
    ),
    fc.string({ unit: 'grapheme-ascii', minLength: 1, maxLength: 8 }),
  )
  .filter((text) => !isFault(canonicalTag(text)) && text.trim() === text && !text.includes('\n'));

const typedCells = fc.array(
  fc.record({
    animal: fc.nat({ max: 3 }),
    day: fc.constantFrom(...days),
    column: fc.nat({ max: 40 }),
    text: cell,
  }),
  { minLength: 1, maxLength: 25 },
);

describe('a tidy file', () => {
  it.each(['comma', 'semicolon'] as const)(
    'reads back to the same readings, whatever was typed (%s)',
    async (style) => {
      const base = summerNotebook({});
      await fc.assert(
        fc.asyncProperty(
          fc.uniqueArray(tag, { minLength: 4, maxLength: 4, selector: keyOf }),
          typedCells,
          fc.constantFrom('.', ','),
          fc.constantFrom('plain', 'guarded'),
          async (tags, cells, decimalMark, guards) => {
            const columns = columnsOf(base).filter(
              ({ kind, typedOver }) => kind !== 'outcome' && (kind !== 'formula' || typedOver),
            );
            const sets: SetTo[] = [
              { path: ['about', 'notebook', 'decimalMark'], value: decimalMark },
              ...tags.flatMap((text, i): SetTo[] => [
                { path: ['animals', `a${i}`, 'tag'], value: text },
                { path: ['animals', `a${i}`, 'order'], value: `a${i}` },
              ]),
              ...days.flatMap((day): SetTo[] => [
                { path: ['days', day, 'date'], value: day.slice(0, 10) },
                { path: ['days', day, 'label'], value: day.slice(11) || null },
              ]),
              ...cells.flatMap(({ animal, day, column: at, text }): SetTo[] => {
                const column = columns[at % columns.length];
                if (!column) return [];
                const value = parseReading(column, text, { decimalMark, weightUnit: 'kg' });
                return [{ path: ['readings', day, `a${animal}`, column.id], value }];
              }),
            ];
            const { notebook } = edited(base, sets);
            const text = await there(notebook, { style, tags: guards });
            const back = andBack(text, emptied(notebook));
            expect(readings(back)).toEqual(readings(notebook));
          },
        ),
        { numRuns: 60 },
      );
    },
    180_000,
  );

  it('has every column in every row, also where the first animal has no counts', async () => {
    const notebook = summerNotebook({
      animals: { a1: { tag: 'A1' }, a2: { tag: 'A2' } },
      days: { '2026-05-03': {} },
      counts: { '2026-05-03': { a2: { chamber1: '3', chamber2: '4' } } },
    });
    const table = readTable(await there(notebook, { style: 'comma' }));
    expect(table.headers).toEqual(tidyHeadings(notebook));
    const at = table.headers.indexOf('epg');
    // No factor of its own and a default protocol of 2 g in 28 mL, 2 × 0.15 mL: 50.
    expect(table.rows.map(({ cells }) => cells[at])).toEqual(['', String(7 * 50)]);
  });

  it('keeps cups of their own: pooled ones, recounts and those not yet assigned', async () => {
    const notebook = edited(
      summerNotebook({
        animals: { a1: { tag: 'A1' }, a2: { tag: 'A2' } },
        days: { '2026-05-03': {} },
        counts: { '2026-05-03': { a1: { chamber1: '3' } } },
      }),
      [
        ...[
          ['pool', 31, ['a1', 'a2'], '9'],
          ['again', 32, ['a1'], '5'],
          ['whose', 33, [], '7'],
        ].flatMap(([id, number, animalIds, text]): SetTo[] => [
          { path: ['cups', String(id), 'day'], value: '2026-05-03' },
          { path: ['cups', String(id), 'number'], value: Number(number) },
          { path: ['cups', String(id), 'animalIds'], value: animalIds as string[] },
          {
            path: ['readings', '2026-05-03', String(id), 'c-chamber1'],
            value: { kind: 'number', text: String(text), value: Number(text) },
          },
        ]),
      ],
    ).notebook;
    const text = await there(notebook, { style: 'comma' });
    const back = andBack(text, { ...emptied(notebook), cups: {} });
    const tagOf = (id: string): string => animalsOf(back).find((one) => one.id === id)?.tag ?? '';
    const cups = Object.entries(back.cups).map(([id, cup]) => [
      newest(cup.number),
      newest(cup.animalIds)?.map(tagOf),
      newest(back.readings['2026-05-03']?.[id]?.['c-chamber1'])?.text,
    ]);
    expect(cups).toEqual([
      [31, ['A1', 'A2'], '9'],
      [32, ['A1'], '5'],
      [33, [], '7'],
    ]);
    expect(readings(back)).toEqual(readings(notebook));
  });

  it('keeps a column of a name that the file itself uses', async () => {
    const notebook = edited(
      summerNotebook({
        animals: { a1: { tag: 'A1', name: 'Willow' } },
        days: { '2026-05-03': {} },
      }),
      [
        { path: ['columns', 'x', 'key'], value: 'name' },
        { path: ['columns', 'x', 'kind'], value: 'text' },
        {
          path: ['readings', '2026-05-03', 'a1', 'x'],
          value: { kind: 'text', text: 'not a name' },
        },
      ],
    ).notebook;
    const back = andBack(await there(notebook, { style: 'comma' }), emptied(notebook));
    expect(readings(back)).toEqual(readings(notebook));
    expect(animalsOf(back)[0]?.name).toBe('Willow');
  });
});

function keyOf(text: string): string {
  const read = canonicalTag(text);
  return isFault(read) ? text : read.key;
}
