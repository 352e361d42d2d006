import { execFile } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { gzipSync } from 'node:zlib';
import type { Row } from './bench.ts';

export const name = 'Size of the built page';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Kilobytes (1,000 bytes) after gzip, as most servers send it. */
async function gzipKb(file: string): Promise<number> {
  return gzipSync(await readFile(file)).length / 1000;
}

/**
 * The page, and every file it names itself or loads at once, the whole of the start page that its first step
 * loads among them: what a first visit waits for. `language` is fetched before all that where it is not English.
 */
async function firstVisit(folder: string, language: string | null): Promise<Set<string>> {
  const page = await readFile(join(folder, 'index.html'), 'utf8');
  const files = new Set(['index.html']);
  const queue = [...page.matchAll(/(?:src|href)="\.\/(assets\/[^"]+\.(?:js|css))"/g)];
  const later = (await readdir(join(folder, 'assets'))).filter((asset) =>
    ['main', language].some((one) => one !== null && new RegExp(`^${one}-.*\\.js$`).test(asset)),
  );
  if (later.length !== (language === null ? 1 : 2))
    throw new Error(`The start page was looked for and not found: ${later.join(', ')}`);
  const names = [
    ...queue.map((match) => match[1] ?? ''),
    ...later.map((asset) => `assets/${asset}`),
  ];
  for (let next = names.pop(); next !== undefined; next = names.pop()) {
    if (files.has(next)) continue;
    files.add(next);
    const text = await readFile(join(folder, next), 'utf8');
    for (const match of text.matchAll(/(?:from|import)\s*["']\.\/([^"']+\.js)["']/g)) {
      names.push(`assets/${match[1]}`);
    }
  }
  return files;
}

export async function run(): Promise<Row[]> {
  const folder = await mkdtemp(join(tmpdir(), 'daybook-size-'));
  try {
    const vite = join(root, 'node_modules/vite/bin/vite.js');
    const words = [vite, 'build', '--outDir', folder, '--logLevel', 'warn'];
    await promisify(execFile)(process.execPath, words, { cwd: root });
    const first = await firstVisit(folder, null);
    const spanish = await firstVisit(folder, 'es');
    const all = (await readdir(folder, { recursive: true, withFileTypes: true }))
      .filter((entry) => entry.isFile() && !entry.name.endsWith('.map'))
      .map((entry) => join(entry.parentPath, entry.name));
    const sum = async (files: readonly string[]): Promise<string> => {
      let total = 0;
      for (const file of files) total += await gzipKb(file);
      return `${total.toFixed(0)} kB gzip`;
    };
    return [
      {
        what: 'before the page can be used for the first time',
        measured: await sum([...first].map((file) => join(folder, file))),
        budget: '250 kB',
        note: `${first.size} files, the page and its styles included`,
      },
      {
        what: 'the same in Spanish',
        measured: await sum([...spanish].map((file) => join(folder, file))),
        budget: '250 kB',
        note: 'with the sentences of the whole program',
      },
      {
        what: 'everything kept for use offline',
        measured: await sum(all),
        budget: '1000 kB',
        note: 'the budget is common practice, no source',
      },
    ];
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
