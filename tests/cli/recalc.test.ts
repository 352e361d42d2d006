import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { main } from '../../src/cli/recalc.ts';
import { templateIds } from '../../src/cli/recalc-template.ts';

/** The factor of the template's protocol: (28 mL + 2 g) ÷ (2 g × 0.15 mL × areas): 50 for two, 100 for one. */
const TWO_AREAS = 50;
const ONE_AREA = 100;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'recalc-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Cells = Readonly<Record<string, string>>;
interface Ran {
  readonly status: number;
  readonly said: string;
  readonly isWritten: boolean;
  readonly raw: string;
  readonly headings: readonly string[];
  readonly rows: readonly Cells[];
}

let files = 0;
async function recalc(list: string | Uint8Array, ...more: readonly string[]): Promise<Ran> {
  files += 1;
  const from = join(folder, `list-${files}.csv`);
  const to = join(folder, `out-${files}.csv`);
  writeFileSync(from, list);
  const said: string[] = [];
  const words = ['--template', 'summer-grazing', '--import', from, '--export', to, ...more];
  const status = await main(words, (sentence) => said.push(sentence));
  const isWritten = existsSync(to);
  const raw = isWritten ? readFileSync(to, 'utf8') : '';
  const parsed = Papa.parse<Record<string, string>>(raw, { header: true, skipEmptyLines: true });
  return {
    status,
    said: said.join('\n'),
    isWritten,
    raw,
    headings: parsed.meta.fields ?? [],
    rows: parsed.data,
  };
}

/** Runs that must succeed, so that a test reads its rows. */
async function rowsOf(list: string | Uint8Array, ...more: readonly string[]) {
  const ran = await recalc(list, ...more);
  expect(ran.status, ran.said).toBe(0);
  return ran.rows;
}

/** Runs that must be refused: a status, no file, and what was said. */
async function refusal(list: string | Uint8Array, ...more: readonly string[]): Promise<string> {
  const ran = await recalc(list, ...more);
  expect(ran.status).not.toBe(0);
  expect(ran.isWritten).toBe(false);
  return ran.said;
}

const columnsOf = (rows: readonly Cells[], ...keys: readonly string[]): string[][] =>
  rows.map((row) => keys.map((key) => row[key] ?? '(no such column)'));

describe('recalc: a tidy list', () => {
  it('gives every typed and every derived column, and the outcome with its reasons', async () => {
    const rows = await rowsOf(
      'tag,date,chamber1,chamber2,eyelid\nA,2026-05-03,10,12,2\nB,2026-05-03,1,0,4\n',
    );
    expect(
      columnsOf(rows, 'tag', 'date', 'eggs', 'factor', 'epg', 'outcome', 'outcome_why'),
    ).toEqual([
      ['A', '2026-05-03', '22', '50', String(22 * TWO_AREAS), 'over', 'epg at your limit or more'],
      ['B', '2026-05-03', '1', '50', String(TWO_AREAS), 'over', 'pale eyelids (4)'],
    ]);
    // Exact Poisson limits of 22 eggs, 95 %: 13.787 to 33.308 (Garwood 1936, from R's poisson.test).
    expect(Number(rows[0]?.['epg_low']) / TWO_AREAS).toBeCloseTo(13.787, 3);
    expect(Number(rows[0]?.['epg_high']) / TWO_AREAS).toBeCloseTo(33.308, 3);
  });

  it('takes what is typed over in a row, and gives what is in use beside what was typed', async () => {
    const rows = await rowsOf(
      'tag,date,chamber1,part1,chamber2,part2,grams\nA,2026-05-03,20,1,10,1/2,\nB,2026-05-03,5,,5,,3\n',
    );
    // 30 mL ÷ (2 g × 0.15 mL × 1.5 areas) = 66.67; 30 eggs: 2,000.
    expect(columnsOf(rows, 'epg', 'grams', 'grams_typed')[0]).toEqual(['2000', '2', '']);
    // (28 + 3) ÷ (3 × 0.15 × 2) × 10
    expect(Number(rows[1]?.['epg'])).toBeCloseTo(310 / 0.9, 9);
    expect(columnsOf(rows, 'grams', 'grams_typed')[1]).toEqual(['3', '3']);
  });

  it('keeps places apart: the same tag on two farms is two animals', async () => {
    const rows = await rowsOf(
      'place,tag,date,chamber1,chamber2\nHill,1,2026-05-03,1,1\nDale,1,2026-05-03,2,2\n',
    );
    expect(columnsOf(rows, 'place', 'tag', 'epg')).toEqual([
      ['Hill', '1', '100'],
      ['Dale', '1', '200'],
    ]);
  });

  it('carries a column that it does not know over, and says so', async () => {
    const ran = await recalc('tag,date,chamber1,owner\nA,2026-05-03,4,Ann\n');
    expect(columnsOf(ran.rows, 'owner', 'epg')).toEqual([['Ann', String(4 * ONE_AREA)]]);
    expect(ran.said).toContain('Column 4 (owner)');
  });

  it('works through its own result again to the same result', async () => {
    const first = await recalc(
      'tag,date,chamber1,chamber2,weight,note,grams\n0123,2026-05-03,>40,3,91 lb,"=1, ""x""",\n982000123456781,2026-05-20,4,,41.5,,3\n',
    );
    const again = await recalc(first.raw);
    expect(again.raw).toBe(first.raw);
    expect(again.said).not.toContain('carried over');
  });
});

describe('recalc: lists from anywhere', () => {
  it('a mark in front, days as headings, tags that differ by zeros', async () => {
    const ran = await recalc('\ufefftag,name,2026-03-01\n0123,Willow,4\n123,Fern,\n');
    expect(ran.status).toBe(0);
    expect(columnsOf(ran.rows, 'tag', 'name', 'date', 'epg', 'outcome')).toEqual([
      ['0123', 'Willow', '2026-03-01', String(4 * TWO_AREAS), 'below'],
      ['123', 'Fern', '2026-03-01', '', 'not enough known'],
    ]);
    expect(ran.said).toContain('differ only by leading zeros');
    expect(ran.said).toContain('--answer count=one');
  });

  it('says that a count was of one area, where it was', async () => {
    const rows = await rowsOf('tag,2026-03-01\nA,4\n', '--answer', 'count=one');
    expect(columnsOf(rows, 'chamber1', 'epg')).toEqual([['4', String(4 * ONE_AREA)]]);
  });

  it('a scale file without a day is asked for one, and its decimal commas are read', async () => {
    const list = 'tag;kg\n982 000123456781;41,5\n982 000123456782;38,0\n';
    expect(await refusal(list)).toContain('--day 2026-05-03');
    const rows = await rowsOf(list, '--day', '2026-05-03');
    expect(columnsOf(rows, 'tag', 'weight_kg', 'electronic')).toEqual([
      ['982 000123456781', '41.5', '982000123456781'],
      ['982 000123456782', '38', '982000123456782'],
    ]);
  });

  it('one field too many is refused with its line', async () => {
    const said = await refusal('tag,kg\nA1,41,5\n', '--day', '2026-05-03');
    expect(said).toContain('Line 2 has 3 fields where 2 are expected');
  });

  it('all refused lines are named, not only the first', async () => {
    const said = await refusal(
      'tag,date,chamber1\nA,2026-05-03,1,9\nB,2026-05-03,1\n9.82E+14,2026-05-03,1\n,2026-05-03,4\nC,2026-13-03,1\n',
    );
    for (const line of [2, 4, 5, 6]) expect(said).toContain(`Line ${line}`);
    expect(said).not.toContain('Line 3');
  });

  it('mixed line ends leave no hidden character behind', async () => {
    const rows = await rowsOf('tag,n\nA1,5\n\rA2,6\n\rA3,7', '--day', '2026-05-03');
    expect(columnsOf(rows, 'tag', 'eggs')).toEqual([
      ['A1', '5'],
      ['A2', '6'],
      ['A3', '7'],
    ]);
  });

  it('a stray quote is flagged and nothing is lost', async () => {
    const ran = await recalc(
      'tag,date,chamber1,note\nA1,2026-05-03,1,"big" ewe\nA2,2026-05-03,2,ok\nA3,2026-05-03,3,ok\n',
    );
    expect(ran.status).toBe(0);
    expect(columnsOf(ran.rows, 'tag', 'note')).toEqual([
      ['A1', '"big" ewe'],
      ['A2', 'ok'],
      ['A3', 'ok'],
    ]);
    expect(ran.said).toContain('Line 2 has a quote mark without its fellow');
  });

  it('Windows-1252 is read', async () => {
    const list = Uint8Array.from(
      [...'tag;name;date;chamber1\n7;Zo\u00eb;2026-05-03;1\n'].map((c) => c.charCodeAt(0)),
    );
    expect(columnsOf(await rowsOf(list), 'name')).toEqual([['Zoë']]);
  });

  it('a header below a title, and a first line that names the separator', async () => {
    const titled = await rowsOf('Herd list 2026\n\ntag,count\nA1,5\n', '--day', '2026-05-03');
    expect(columnsOf(titled, 'tag', 'epg')).toEqual([['A1', String(5 * TWO_AREAS)]]);
    const named = await rowsOf('sep=;\ntag;n\nA;5\n', '--day', '2026-05-03');
    expect(columnsOf(named, 'tag', 'epg')).toEqual([['A', String(5 * TWO_AREAS)]]);
  });

  it('two equal headings are asked about, and nothing is lost once it is answered', async () => {
    const list = 'tag,2026-03-01,2026-03-01\nA,1,2\n';
    const said = await refusal(list);
    expect(said).toContain('--answer same:1=samplings');
    expect(said).toContain('--answer same:1=chambers');
    const two = await rowsOf(list, '--answer', 'same:1=samplings');
    expect(columnsOf(two, 'date', 'day_label', 'eggs')).toEqual([
      ['2026-03-01', '', '1'],
      ['2026-03-01', 'second', '2'],
    ]);
    const one = await rowsOf(list, '--answer', 'same:1=chambers');
    expect(columnsOf(one, 'chamber1', 'chamber2', 'epg')).toEqual([['1', '2', '150']]);
  });

  it('numbers that a spreadsheet destroyed are refused', async () => {
    const said = await refusal('tag,date,chamber1\n9.82E+14,2026-05-03,1\n9.82E+14,2026-05-03,2\n');
    expect(said).toContain('what a spreadsheet makes of a long number');
    expect(await refusal('tag\n9.82E+14\n9.82E+14\n')).toContain('Line 2');
  });

  it('a doubtful date is refused with both readings, and taken once it is answered', async () => {
    const list = 'tag,03/04/2026\nA,1\n';
    const said = await refusal(list);
    expect(said).toContain('3 April 2026');
    expect(said).toContain('4 March 2026');
    const rows = await rowsOf(list, '--answer', 'order:headings=dmy');
    expect(columnsOf(rows, 'date')).toEqual([['2026-04-03']]);
    expect(await refusal('tag,date,chamber1\nA,03/04/2026,1\n')).toContain('Which comes first');
  });

  it('lines of nothing make no ghost animals', async () => {
    const rows = await rowsOf('tag,date,chamber1\nA,2026-05-03,1\n\n,\n , \n');
    expect(columnsOf(rows, 'tag')).toEqual([['A']]);
  });

  it('odd headings are carried over, two equal ones both', async () => {
    const ran = await recalc('tag,date,chamber1,__proto__,constructor\nA,2026-05-03,1,x,y\n');
    expect(ran.status).toBe(0);
    expect(ran.headings.slice(-2)).toEqual(['__proto__', 'constructor']);
    expect(ran.raw.trimEnd().endsWith('x,y')).toBe(true);
    expect(await refusal('tag,date,count,count\nA,2026-05-03,1,2\n')).toContain('Columns 3 and 4');
  });

  it.each([
    '982 000123456789',
    '0982000123456789',
    'A 00000 0 982 000123456789',
    '8000F580075BCD15',
  ])('%s and 982000123456789 are one animal', async (form) => {
    const rows = await rowsOf(
      `tag,date,chamber1,chamber2\n982000123456789,2026-05-03,1,1\n${form},2026-05-20,2,2\n`,
    );
    expect(new Set(columnsOf(rows, 'tag').flat())).toEqual(new Set(['982000123456789']));
    expect(columnsOf(rows, 'epg')).toEqual([['100'], ['200']]);
  });

  it('tags of many digits stay three animals', async () => {
    const rows = await rowsOf(
      'tag,date,count\n982000123456781,2026-05-03,1\n982000123456782,2026-05-03,2\n982000123456783,2026-05-03,4\n',
    );
    expect(columnsOf(rows, 'tag', 'epg')).toEqual([
      ['982000123456781', '50'],
      ['982000123456782', '100'],
      ['982000123456783', '200'],
    ]);
  });

  it('counts, blanks, bounds and doubts are five different things', async () => {
    const ran = await recalc(
      ['0', '', 'TNTC', '>40', '12?', '12', '<5']
        .map((count, i) => `A${i},2026-05-03,${count}`)
        .reduce((text, line) => `${text}${line}\n`, 'tag,date,count\n'),
    );
    expect(ran.status).toBe(0);
    expect(columnsOf(ran.rows, 'chamber1', 'epg', 'outcome')).toEqual([
      ['0', '0', 'below'],
      ['', '', 'not enough known'],
      ['TNTC', '', 'over'],
      // At least 41 eggs at 50 each: 2,050 epg, over 500.
      ['>40', '', 'over'],
      ['12?', '', 'not enough known'],
      ['12', String(12 * TWO_AREAS), 'over'],
      // At most 4 eggs: 200 epg.
      ['<5', '', 'below'],
    ]);
    for (const line of [4, 5, 6, 8]) expect(ran.said).toContain(`Line ${line}`);
    expect(ran.rows[4]?.['unread']).toBe('chamber1');
  });

  it('every column is there, also where the first animal has no counts', async () => {
    const ran = await recalc('tag,date,chamber1\nA,2026-05-03,\nB,2026-05-03,3\n');
    expect(ran.headings).toEqual(expect.arrayContaining(['epg', 'outcome', 'condition', 'note']));
    const widths = Papa.parse<string[]>(ran.raw.trimEnd()).data.map((cells) => cells.length);
    expect(widths).toEqual(Array(3).fill(ran.headings.length));
  });

  it('texts that a spreadsheet would run are guarded, and read back equal', async () => {
    const first = await recalc(
      'tag,name,date,chamber1,note\nA,@Nell,2026-05-03,1,"=1+1\nsee vet"\n',
    );
    expect(first.raw).toContain(`'@Nell`);
    expect(first.raw).toContain(`"'=1+1\nsee vet"`);
    const again = await recalc(first.raw);
    expect(again.raw).toBe(first.raw);
  });

  it('tabs and a quote that never ends: two rows, the first flagged', async () => {
    const ran = await recalc('A1\t"5\nA2\t6\n', '--day', '2026-05-03');
    expect(ran.status, ran.said).toBe(0);
    expect(columnsOf(ran.rows, 'tag', 'chamber1', 'epg')).toEqual([
      ['A1', '"5', ''],
      ['A2', '6', String(6 * TWO_AREAS)],
    ]);
    expect(ran.said).toContain('Line 1 has a quote mark');
  });

  it('old results are kept and never averaged', async () => {
    const rows = await rowsOf(
      'tag,date,count\nA,2026-05-03,+\nB,2026-05-03,++\nC,2026-05-03,less than 200\nD,2026-05-03,pooled\nE,2026-05-03,ns\n',
    );
    expect(columnsOf(rows, 'chamber1', 'status', 'epg')).toEqual([
      [`'+`, '', ''],
      [`'++`, '', ''],
      ['less than 200', '', ''],
      ['', 'pooled', ''],
      ['', 'not sampled', ''],
    ]);
  });

  it('eggs per gram are no counts: asked what they are', async () => {
    const list = 'tag,date,epg\nA,2026-05-03,150\nB,2026-05-03,75\n';
    expect(await refusal(list)).toContain('--answer epg=reported');
    const back = await rowsOf(list, '--answer', 'epg=back:50');
    expect(columnsOf(back, 'chamber1', 'factor_typed', 'epg')).toEqual([
      ['3', '50', '150'],
      ['75', '', ''],
    ]);
    const kept = await recalc(list, '--answer', 'epg=reported');
    expect(columnsOf(kept.rows, 'epg_reported', 'epg')).toEqual([
      ['150', ''],
      ['75', ''],
    ]);
  });

  it('one animal twice on a day with different counts is asked about', async () => {
    const list = 'tag,date,chamber1,chamber2\nA,2026-05-03,1,1\nA,2026-05-03,2,2\n';
    expect(await refusal(list)).toContain('--answer twice=samplings');
    const two = await rowsOf(list, '--answer', 'twice=samplings');
    expect(columnsOf(two, 'day_label', 'epg')).toEqual([
      ['', '100'],
      ['second', '200'],
    ]);
    expect(columnsOf(await rowsOf(list, '--answer', 'twice=last'), 'epg')).toEqual([['200']]);
    const parted = 'tag,date,chamber1,chamber2\nA,2026-05-03,1,\nA,2026-05-03,,2\n';
    expect(columnsOf(await rowsOf(parted), 'chamber1', 'chamber2', 'epg')).toEqual([
      ['1', '2', '150'],
    ]);
  });

  it('blanks of an egg type looked for are zeros in counted cups', async () => {
    const list =
      'tag,date,chamber1,chamber2,nematodirus\nA,2026-05-03,1,1,4\nB,2026-05-03,1,1,\nC,2026-05-03,,,\n';
    expect(columnsOf(await rowsOf(list), 'nematodirus', 'nematodirus_epg')).toEqual([
      ['4', '200'],
      ['0', '0'],
      ['', ''],
    ]);
    const left = await rowsOf(list, '--answer', 'blanks=leave');
    expect(columnsOf(left, 'nematodirus')).toEqual([['4'], [''], ['']]);
  });

  it('a weight without a unit is taken as kilograms, and said so', async () => {
    const ran = await recalc('tag,date,chamber1,weight\nA,2026-05-03,1,91\n');
    expect(ran.said).toContain('--answer unit:3=lb');
    expect(ran.rows[0]?.['weight_kg']).toBe('91');
    const pounds = await rowsOf(
      'tag,date,chamber1,weight\nA,2026-05-03,1,91\n',
      '--answer',
      'unit:3=lb',
    );
    // 91 × 0.45359237, the pound of 1959
    expect(Number(pounds[0]?.['weight_kg'])).toBeCloseTo(41.27690567, 8);
  });

  it('other files than lists are named for what they are', async () => {
    const packed = Uint8Array.from([0x50, 0x4b, 3, 4, 20, 0, 6, 0]);
    expect(await refusal(packed)).toContain('a spreadsheet workbook');
    expect(await refusal('')).toContain('There is no animal');
    expect(await refusal('tag,name\nA,Willow\n')).toContain('no column of counts');
    expect(await refusal('owner,date,chamber1\nAnn,2026-05-03,1\nAnn,2026-05-03,2\n')).toContain(
      'No column of this list names the animals',
    );
  });
});

describe('recalc: how it is asked', () => {
  const run = async (...words: readonly string[]): Promise<[number, string]> => {
    const said: string[] = [];
    return [await main(words, (sentence) => said.push(sentence)), said.join('\n')];
  };

  it('says how to use it where a word is not understood or one is missing', async () => {
    expect(await run('--tempalte', 'x')).toEqual([
      1,
      expect.stringContaining('"--tempalte" is not understood'),
    ]);
    expect(await run('--template', 'summer-grazing')).toEqual([
      1,
      expect.stringContaining('--import is missing'),
    ]);
    expect((await run('--day', '2026-02-30'))[0]).toBe(1);
    expect((await run())[1]).toContain('Use: npm run -s recalc');
  });

  it('names the templates there are, for one that there is not', async () => {
    const [status, said] = await run('--template', 'winter', '--import', 'a', '--export', 'b');
    expect(status).toBe(1);
    for (const id of templateIds()) expect(said).toContain(id);
  });

  it('names a file or folder that is not there', async () => {
    const [status, said] = await run(
      '--template',
      'summer-grazing',
      '--import',
      join(folder, 'none.csv'),
      '--export',
      join(folder, 'x.csv'),
    );
    expect([status, said]).toEqual([1, expect.stringContaining('There is no file')]);
    const [, where] = await run(
      '--template',
      'summer-grazing',
      '--import',
      join(folder, 'none.csv'),
      '--export',
      join(folder, 'no', 'x.csv'),
    );
    expect(where).toContain('There is no folder');
  });

  it('takes a template file, and refuses one that is wrong', async () => {
    const path = fileURLToPath(new URL('../../templates/summer-grazing.json', import.meta.url));
    const own = JSON.parse(readFileSync(path, 'utf8')) as {
      protocol: { grams: number };
      columns: { key: string; formula?: string }[];
    };
    own.protocol.grams = 3;
    const file = join(folder, 'own.json');
    writeFileSync(file, JSON.stringify(own));
    const list = 'tag,date,chamber1,chamber2\nA,2026-05-03,1,1\n';
    const from = join(folder, 'own-list.csv');
    const to = join(folder, 'own-out.csv');
    writeFileSync(from, list);
    expect(await run('--template', file, '--import', from, '--export', to)).toEqual([0, '']);
    const [row] = Papa.parse<Cells>(readFileSync(to, 'utf8'), { header: true }).data;
    // (28 + 3) ÷ (3 × 0.15 × 2) × 2
    expect(Number(row?.['epg'])).toBeCloseTo(62 / 0.9, 9);
    const broken = {
      ...own,
      columns: own.columns.map((c) =>
        c.key === 'epg' ? { ...c, formula: 'EPG(eggz, factor)' } : c,
      ),
    };
    writeFileSync(file, JSON.stringify(broken));
    expect(
      await run('--template', file, '--import', from, '--export', join(folder, 'no.csv')),
    ).toEqual([1, expect.stringContaining('column epg')]);
    writeFileSync(file, '{}');
    expect((await run('--template', file, '--import', from, '--export', to))[1]).toContain(
      'not a template',
    );
  });

  it.each(templateIds())('works with the template %s', async (id) => {
    const from = join(folder, `t-${id}.csv`);
    const to = join(folder, `t-${id}-out.csv`);
    writeFileSync(from, 'tag,date,chamber1,chamber2\nA,2026-05-03,10,10\n');
    expect((await run('--template', id, '--import', from, '--export', to))[0]).toBe(0);
    const [row] = Papa.parse<Cells>(readFileSync(to, 'utf8'), { header: true }).data;
    expect(Number(row?.['epg'])).toBe(20 * Number(row?.['factor']));
  });

  it('runs as npm runs it, with its status', async () => {
    const root = fileURLToPath(new URL('../..', import.meta.url));
    const from = join(folder, 'npm.csv');
    writeFileSync(from, 'tag,date,chamber1,chamber2\nA,2026-05-03,1,2\n');
    const words = ['run', '-s', 'recalc', '--', '--template', 'summer-grazing', '--import', from];
    const to = join(folder, 'npm-out.csv');
    await promisify(execFile)('npm', [...words, '--export', to], { cwd: root });
    expect(readFileSync(to, 'utf8')).toContain('A,');
    writeFileSync(from, 'tag,date,chamber1\nA,2026-05-03,1,2\n');
    const failed = promisify(execFile)('npm', [...words, '--export', join(folder, 'n2.csv')], {
      cwd: root,
    });
    await expect(failed).rejects.toMatchObject({
      stderr: expect.stringContaining('Line 2') as string,
    });
    expect(existsSync(join(folder, 'n2.csv'))).toBe(false);
  });
});
