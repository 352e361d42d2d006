import fc from 'fast-check';
import { expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { planToEdit } from '../../src/csv/import-edit.ts';
import { isReady } from '../../src/csv/import-plan.ts';
import { isNotebookHeading } from '../../src/csv/import-roles.ts';
import { planNow } from '../../src/csv/plan-import.ts';
import { readTable } from '../../src/csv/read-table.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { validate } from '../../src/notebook/validate.ts';
import { summerNotebook } from '../build-notebook.ts';

const empty = summerNotebook({});

const heading = fc.constantFrom(
  ...[
    'tag',
    'EID',
    'name',
    'date',
    'label',
    'cup',
    'count',
    'epg',
    'kg',
    'weight',
    'note',
    'group',
  ],
  ...['chamber1', 'chamber2', 'eyelid', 'status', 'nematodirus', 'factor', 'born', 'time', 'x', ''],
  ...['2026-05-03', '03/04/2026', 'kg 2026-05-03', '2026-05-03 evening', '__proto__', 'sample'],
);
const cell = fc.oneof(
  fc.constantFrom(
    ...['A1', 'a1', '0123', '123', '982000123456789', '982 000123456789', '9.82E+14', '####', ''],
    ...['0', '5', '12?', '>40', '<5', 'TNTC', '+', 'ns', 'pooled', '41,5', '41.5', '91 lb', '3/6'],
    ...['2026-05-03', '03/04/2026', '2026-02-30', '1', '2', '"', 'a"b', 'evening', '=1+1', ' '],
  ),
  fc.string({ unit: 'grapheme', maxLength: 6 }),
);
const list = fc
  .record({
    headings: fc.array(heading, { minLength: 1, maxLength: 6 }),
    rows: fc.array(fc.array(cell, { maxLength: 7 }), { maxLength: 8 }),
    mark: fc.constantFrom(',', ';', '\t'),
    end: fc.constantFrom('\n', '\r\n', '\r'),
  })
  .map(({ headings, rows, mark, end }) =>
    [headings, ...rows].map((cells) => cells.join(mark)).join(end),
  );
const bytes = fc.oneof(
  { weight: 6, arbitrary: list.map((text) => new TextEncoder().encode(text)) },
  { weight: 1, arbitrary: fc.uint8Array({ maxLength: 200 }) },
);
const answers = fc.dictionary(
  fc.constantFrom(
    'count',
    'epg',
    'twice',
    'there',
    'blanks',
    'order:headings',
    'order:1',
    'unit:1',
  ),
  fc.constantFrom(
    ...['all', 'one', 'back:50', 'reported', 'leave', 'samplings', 'first', 'last', 'take', 'keep'],
    ...['dmy', 'mdy', 'kg', 'lb', 'zero'],
  ),
);

it('planImport(table) takes any bytes without a throw, and every row is taken or named', () => {
  fc.assert(
    fc.property(
      bytes,
      answers,
      fc.constantFrom(null, '2026-05-03', 'nonsense'),
      (input, given, day) => {
        const table = readTable(input, { isHeading: isNotebookHeading(empty) });
        let ids = 0;
        const plan = planNow(table, empty, {
          answers: new Map(Object.entries(given)),
          day,
          newId: () => `n${(ids += 1)}`,
        });
        const named = new Set(
          plan.problems.filter(({ what }) => what === 'left out').map(({ line }) => line),
        );
        const isNameless = plan.problems.some(({ kind }) => kind === 'no-tag-column');
        const { taken, waiting, out } = plan.rows;
        expect(taken + waiting + out.length).toBe(table.rows.length);
        if (!isNameless) expect(out.filter((line) => !named.has(line))).toEqual([]);
        expect(waiting > 0 && isReady(plan)).toBe(false);
        // A row that was taken stands under its day, or at least for its animal.
        const placed = [...plan.lines.values()].flatMap((rows) => [...rows.values()]);
        expect(taken === 0 || placed.length + plan.animals.length > 0).toBe(true);
        const edit = planToEdit(empty, plan, 'fuzz.csv');
        if (isFault(edit)) return;
        const after = applyEdit(empty, edit, [2, 0, 'bench']).notebook;
        expect(isFault(validate(JSON.parse(JSON.stringify(after))))).toBe(false);
      },
    ),
    {
      numRuns: 5000,
      examples: [
        [new TextEncoder().encode('cup,date,tag\n123,!\nA1,03/04/2026'), {}, '2026-05-03'],
      ],
    },
  );
}, 180_000);
