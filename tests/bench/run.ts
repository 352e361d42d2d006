import { readdirSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import type { Bench, Row } from './bench.ts';

/** `npm run bench`, or `npm run bench -- engine` for the files whose name contains that word. */
const wanted = process.argv.slice(2);
const files = readdirSync(new URL('.', import.meta.url))
  .filter((name) => name.endsWith('.bench.ts'))
  .filter((name) => wanted.length === 0 || wanted.some((word) => name.includes(word)))
  .sort();

const COLUMNS: readonly { readonly head: string; readonly cell: (row: Row) => string }[] = [
  { head: 'What', cell: (row) => row.what },
  { head: 'Measured', cell: (row) => row.measured },
  { head: 'Budget', cell: (row) => row.budget },
  { head: 'Bare engine', cell: (row) => row.bareEngine ?? '' },
  { head: 'Note', cell: (row) => row.note ?? '' },
];

function table(rows: readonly Row[]): string {
  const lines = [
    COLUMNS.map((column) => column.head),
    ...rows.map((row) => COLUMNS.map((column) => column.cell(row))),
  ];
  const widths = COLUMNS.map((_, i) => Math.max(...lines.map((line) => line[i]?.length ?? 0)));
  const show = (line: readonly string[]): string =>
    `| ${line.map((text, i) => text.padEnd(widths[i] ?? 0)).join(' | ')} |`;
  const [head = [], ...body] = lines;
  return [
    show(head),
    `|${widths.map((w) => '-'.repeat(w + 2)).join('|')}|`,
    ...body.map(show),
  ].join('\n');
}

if (files.length === 0) {
  console.error('There is no benchmark of that name in tests/bench.');
  process.exitCode = 1;
}
const memory = (totalmem() / 2 ** 30).toFixed(0);
console.log(
  `Node ${process.version}, ${process.platform} ${process.arch}, ` +
    `${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}, ${memory} GB`,
);
for (const file of files) {
  try {
    const bench = (await import(new URL(file, import.meta.url).href)) as Bench;
    console.log(`\n${bench.name}\n`);
    console.log(table(await bench.run()));
  } catch (error) {
    console.error(`${file} could not be measured:`, error);
    process.exitCode = 1;
  }
}
