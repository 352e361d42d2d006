import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import { methodRows } from '../../src/csv/export-method.ts';
import { vetRows } from '../../src/csv/export-vet.ts';
import { writeTable, type WriteCell } from '../../src/csv/write-table.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { toShown } from '../../src/engine/stored-formula.ts';
import { defaultsOf } from '../../src/notebook/read.ts';
import { DOSE_CAUTIONS, LIST_CAUTIONS } from '../../src/treating/cautions.ts';
import { edited, fields, summerNotebook } from '../build-notebook.ts';

const day = '2026-05-03';
const engine = () => createEngine(() => Promise.resolve());

/** 2 g in 28 mL, two grids of 0.15 mL: a factor of 50 for both, 100 for one. */
function herd(): Notebook {
  const start = summerNotebook({
    animals: {
      a1: { tag: '0012', species: 'sheep', class: 'ewe', group: 'hill' },
      a2: { tag: '982000123456789', name: 'Fern' },
      a3: { tag: 'L-3', class: 'lamb' },
    },
    days: {
      [day]: {
        ...{ grams: 2, fluidMl: 28, fluidIs: 'added', areaMl: 0.15, areas: 2, countedBy: 'Ann' },
      },
      '2026-05-24': { grams: 2, fluidMl: 28, fluidIs: 'added', areaMl: 0.15, areas: 2 },
    },
    counts: {
      [day]: {
        a2: { chamber1: '10', chamber2: '12', eyelid: '2', weight: '91 lb', coccidia: '4' },
        a3: { chamber1: 'TNTC', note: '=see vet' },
      },
      '2026-05-24': { a2: { chamber1: '1' } },
    },
  });
  const { criteria = [] } = defaultsOf(start);
  return edited(start, [
    ...[day, '2026-05-24'].flatMap((id) => fields('days', id, { criteria })),
    ...fields('products', 'p', { name: 'the blue can', labelMl: 1, labelPer: 5, labelUnit: 'kg' }),
    ...fields('treatments', 't', {
      ...{ animal: 'a2', product: 'p', date: day, doseMl: 8.5, weightKg: 41, by: 'Bo' },
      ...{ meatClear: '2026-06-12', milkClear: 'not permitted' },
    }),
  ]).notebook;
}

type Table = readonly (readonly WriteCell[])[];
function at(rows: Table, row: number, heading: string): WriteCell | undefined {
  const column = rows[0]?.indexOf(heading) ?? -1;
  return column === -1 ? `(no ${heading})` : rows[row]?.[column];
}

describe('vetRows(notebook, engine, [day])', () => {
  it('has a row for each animal present, counted or not, and the same columns in each', async () => {
    const rows = await vetRows(herd(), engine(), [day], 'comma');
    expect(rows.slice(1).map(([tag]) => tag)).toEqual([
      { tag: '0012' },
      { tag: '982000123456789' },
      { tag: 'L-3' },
    ]);
    expect(new Set(rows.map((row) => row.length)).size).toBe(1);
  });

  it('gives everything an epg rests on, with units, and its limits', async () => {
    const rows = await vetRows(herd(), engine(), [day], 'comma');
    const of = (heading: string): WriteCell | undefined => at(rows, 2, heading);
    expect(of('strongyle-type eggs seen')).toBe(22);
    expect(of('areas counted')).toBe(2);
    expect(of('dung (g)')).toBe(2);
    expect(of('fluid added (mL)')).toBe(28);
    expect(of('factor (epg per egg)')).toBe(50);
    expect(of('strongyle-type eggs per gram (epg)')).toBe(1100);
    // 22 eggs, exact Poisson 95 %: 13.787 to 33.308 (Garwood 1936), times 50
    expect(of('epg, lower 95 % limit')).toBe(689);
    expect(of('epg, upper 95 % limit')).toBe(1665);
    expect(of('coccidia (oocysts)')).toBe('4');
    expect(of('weight')).toBe('91 lb');
    expect(of('outcome')).toBe('over');
    expect(of('reasons')).toBe('epg at your limit or more');
    expect(of('counted by')).toBe('Ann');
  });

  it('keeps what is no number as it was typed, guarded where a spreadsheet would run it', async () => {
    const rows = await vetRows(herd(), engine(), [day], 'comma');
    expect(at(rows, 3, 'chamber 1 (eggs)')).toBe('TNTC');
    expect(at(rows, 3, 'strongyle-type eggs per gram (epg)')).toBeNull();
    expect(at(rows, 3, 'reasons')).toBe('too many eggs to count');
    const text = writeTable(rows, { style: 'comma' });
    expect(text).toContain(`'=see vet`);
    expect(text).toContain(`'0012`);
    expect(text).toContain(`'982000123456789`);
  });

  it('has the last treatment, its dose and clear dates, beside each day', async () => {
    const rows = await vetRows(herd(), engine(), [day, '2026-05-24'], 'comma');
    const later = (heading: string): WriteCell | undefined => at(rows, 2, `2026-05-24: ${heading}`);
    expect(later('last treated')).toBe(day);
    expect(later('days since last treatment')).toBe(21);
    expect(later('product')).toBe('the blue can');
    expect(later('dose given (mL)')).toBe(8.5);
    expect(later('meat clear')).toBe('not before 2026-06-12');
    expect(later('milk clear')).toBe('not permitted for people: ask your vet');
    expect(at(rows, 1, '2026-05-24: last treated')).toBeNull();
  });

  it('puts a season’s days side by side, one row for each animal', async () => {
    const rows = await vetRows(herd(), engine(), [day, '2026-05-24'], 'comma');
    expect(rows).toHaveLength(4);
    const epg = 'strongyle-type eggs per gram (epg)';
    expect(at(rows, 2, `${day}: ${epg}`)).toBe(1100);
    // One of two chambers: the factor of one area.
    expect(at(rows, 2, `2026-05-24: ${epg}`)).toBe(100);
    expect(at(rows, 2, '2026-05-24: areas counted')).toBe(1);
  });

  it('writes decimal commas where they are wanted', async () => {
    const text = writeTable(await vetRows(herd(), engine(), [day], 'semicolon'), {
      style: 'semicolon',
    });
    expect(text).toContain(';8,5;');
    expect(text).not.toContain(';8.5;');
  });
});

describe('methodRows(notebook, engine, days)', () => {
  it('says how it was counted, how many of how many, and the cautions', async () => {
    const notebook = herd();
    const rows = await methodRows(notebook, engine(), [day], 'comma', (formula) =>
      toShown(notebook, formula),
    );
    const says = (what: string): WriteCell | undefined => rows.find((row) => row[1] === what)?.[2];
    expect(says('multiplication factor')).toBe('(28 mL + 2 g) ÷ (2 g × 0.15 mL × 2) = 50');
    expect(says('animals present')).toBe(3);
    expect(says('animals with something noted')).toBe('2 of 3');
    expect(says('animals with an epg')).toBe('1 of 3');
    expect(says('over the criteria')).toBe('2 of 3');
    expect(says('not enough known')).toBe('1 of 3');
    expect(says('mean, epg (1 of 3 counted)')).toBe(1100);
    expect(says('criterion: epg at your limit or more')).toBe('epg >= treat_from; must be known');
    expect(says('limit: Treat from')).toContain('500 epg; an example nobody has confirmed');
    expect(says('product: the blue can')).toBe('label: 1 mL per 5 kg');
    const cautions = rows.filter((row) => row[1] === 'caution').map((row) => row[2]);
    expect(cautions).toEqual(expect.arrayContaining([...DOSE_CAUTIONS, ...LIST_CAUTIONS]));
  });
});
