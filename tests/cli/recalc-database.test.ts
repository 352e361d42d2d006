import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import initSqlJs, { type Database } from 'sql.js';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { main } from '../../src/cli/recalc.ts';

/** Two chambers, 2 g in 28 mL, 0.15 mL under each grid: one egg seen is 50 epg. */
const FACTOR = 50;
const animals = 300;
const days = ['2026-05-03', '2026-05-24', '2026-06-14', '2026-07-05'];

let folder: string;
let database: Database;
const eggs = (animal: number, day: number): number => (animal * 31 + day * 17) % 23;

/** As any office would load it: every column of the header, numbers where all of it are numbers. */
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'recalc-'));
  const [from, to] = [join(folder, 'counts.csv'), join(folder, 'out.csv')];
  const rows = days.flatMap((day, d) =>
    Array.from({ length: animals }, (_, a) => {
      const note = a === 7 ? '"lame, left hind"' : a === 8 ? '"=1+1\nsee vet"' : '';
      return `Hill Farm,0${a},${day},${eggs(a, d)},${a === 9 ? 'TNTC' : 0},${note}`;
    }),
  );
  writeFileSync(from, `place,tag,date,chamber1,chamber2,note\n${rows.join('\n')}\n`);
  const words = ['--template', 'summer-grazing', '--import', from, '--export', to];
  expect(await main(words, () => undefined)).toBe(0);
  const text = readFileSync(to, 'utf8').replace(/^\ufeff/, '');
  const [header = [], ...body] = Papa.parse<string[]>(text.trimEnd()).data;
  const SQL = await initSqlJs();
  database = new SQL.Database();
  const isNumber = header.map((_, i) => body.every((cells) => /^-?[\d.]*$/.test(cells[i] ?? '')));
  const columns = header.map(
    (name, i) => `"${name}" ${isNumber[i] && name !== 'tag' ? 'REAL' : 'TEXT'}`,
  );
  database.run(`CREATE TABLE counts (${columns.join(', ')})`);
  const insert = database.prepare(
    `INSERT INTO counts VALUES (${header.map(() => '?').join(', ')})`,
  );
  for (const cells of body) insert.run(cells.map((cell) => (cell === '' ? null : cell)));
  insert.free();
}, 120_000);

afterAll(() => {
  database.close();
  rmSync(folder, { recursive: true, force: true });
});

const ask = (sql: string): unknown[][] => database.exec(sql)[0]?.values ?? [];

it('loads every row once, under keys that tell them apart', () => {
  expect(ask('SELECT count(*), count(DISTINCT place || date || tag) FROM counts')).toEqual([
    [animals * days.length, animals * days.length],
  ]);
  expect(ask('SELECT DISTINCT date FROM counts ORDER BY date').flat()).toEqual(days);
  // A tag is text: its leading zero is there.
  expect(ask(`SELECT count(*) FROM counts WHERE tag = '07'`)).toEqual([[days.length]]);
});

it('gives the database numbers to reckon with, and nulls for what is missing', () => {
  const counted = days
    .flatMap((_, d) =>
      Array.from({ length: animals }, (_, a) => (a === 9 ? null : eggs(a, d) * FACTOR)),
    )
    .filter((epg) => epg !== null);
  const mean = counted.reduce((sum, epg) => sum + epg, 0) / counted.length;
  const [[count, average] = []] = ask('SELECT count(epg), avg(epg) FROM counts');
  expect(count).toBe(counted.length);
  expect(average).toBeCloseTo(mean, 9);
  expect(ask(`SELECT DISTINCT outcome FROM counts WHERE tag = '09'`)).toEqual([['over']]);
  const over = counted.filter((epg) => epg >= 500).length + days.length;
  expect(ask(`SELECT count(*) FROM counts WHERE outcome = 'over'`)).toEqual([[over]]);
});

it('keeps notes with commas and line ends', () => {
  expect(
    ask(`SELECT DISTINCT note FROM counts WHERE tag IN ('07', '08') ORDER BY tag`).flat(),
  ).toEqual(['lame, left hind', `'=1+1\nsee vet`]);
});
