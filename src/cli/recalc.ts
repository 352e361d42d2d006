import { readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { tidyHeadings } from '../csv/own-file.ts';
import { isNotebookHeading } from '../csv/import-roles.ts';
import { readTable } from '../csv/read-table.ts';
import { writeTable, type WriteCell } from '../csv/write-table.ts';
import { createEngine } from '../engine/engine.ts';
import { toShown, toStored } from '../engine/stored-formula.ts';
import { applyEdit } from '../notebook/apply-edit.ts';
import { addDay } from '../notebook/edit-days.ts';
import { fromTemplate } from '../notebook/from-template.ts';
import { recalcList, type RecalcList } from './recalc-list.ts';
import { recalcOptions, type RecalcOptions } from './recalc-options.ts';
import { formulaFault, notebookOf, recalcPlace } from './recalc-places.ts';
import { findTemplate } from './recalc-template.ts';

/** From this many rows on, how far the work has come is told. */
const many = 5000;
const remarksShown = 40;

/**
 * `npm run -s recalc -- --template ID --import FILE --export FILE`: reads a list, works out every column
 * of the template for it, and writes a tidy CSV. Whatever cannot be taken is named with its line, and
 * then nothing is written. Gives the exit status.
 */
export async function main(
  words: readonly string[],
  say: (sentence: string) => void,
): Promise<number> {
  const options = recalcOptions(words);
  const fail = (...sentences: readonly string[]): number => {
    sentences.forEach(say);
    return 1;
  };
  if (isFault(options)) return fail(options.sentence);
  const template = findTemplate(options.template);
  if (isFault(template)) return fail(template.sentence);
  const place = placeFault(options);
  if (place !== null) return fail(place);
  const bytes = readBytes(options.from);
  if (typeof bytes === 'string') return fail(bytes);

  const stamp = [0, 0, 'recalc'] as const;
  const making = { id: 'recalc', title: '', stamp, bind: toStored };
  const empty = fromTemplate(template, making);
  const wrong = await wrongFormula(empty);
  if (wrong !== null) return fail(wrong);

  const table = readTable(bytes, { isHeading: isNotebookHeading(empty) });
  const file = basename(options.from);
  const list = recalcList(table, empty, { ...options, file });
  sayRemarks(list, say);
  if (list.refused.length > 0)
    return fail(...list.refused, `Nothing was written: ${file} has to be put right first.`);

  const rowByLine = new Map(table.rows.map((row) => [row.line, row.cells]));
  const lines: { readonly line: number; readonly day: string; readonly text: string }[] = [];
  const engine = createEngine(() => Promise.resolve());
  let headings = tidyHeadings(empty);
  for (const one of list.places) {
    const notebook = notebookOf(empty, one, file);
    if (isFault(notebook)) return fail(notebook.sentence);
    headings = tidyHeadings(notebook);
    await recalcPlace(notebook, one, engine, (line, day, cells) => {
      const carried = list.carried.map(({ column }) => rowByLine.get(line)?.[column] ?? null);
      lines.push({ line, day, text: lineText([...cells, ...carried], options) });
      if (table.rows.length >= many && lines.length % many === 0)
        say(`${lines.length.toLocaleString('en')} rows worked out.`);
    });
  }
  lines.sort((a, b) => a.line - b.line || (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  const carriedHeadings = list.carried.map(
    ({ column, heading }) => heading || `column_${column + 1}`,
  );
  const head = writeTable([[...headings, ...carriedHeadings]], { style: 'comma' });
  return writeWhole(options.to, [head, ...lines.map(({ text }) => text)], fail);
}

function lineText(cells: readonly WriteCell[], { tags }: RecalcOptions): string {
  return writeTable([cells], { style: 'comma', tags }).slice(1);
}

/** Told of in full up to a point: a long list of `TNTC` should not hide what comes after it. */
function sayRemarks({ remarks, refused }: RecalcList, say: (sentence: string) => void): void {
  remarks.slice(0, remarksShown).forEach(say);
  if (remarks.length > remarksShown && refused.length === 0)
    say(
      `And ${remarks.length - remarksShown} more to look at: see the columns unread and problems.`,
    );
}

async function wrongFormula(empty: Notebook): Promise<string | null> {
  const added = addDay(empty, '2026-01-01', '');
  if (isFault(added)) return added.sentence;
  const notebook = applyEdit(empty, added.edit, [0, 1, 'recalc']).notebook;
  const engine = createEngine(() => Promise.resolve());
  await engine.open(notebook, added.id);
  return formulaFault(notebook, engine, (formula) => toShown(notebook, formula))?.sentence ?? null;
}

function placeFault({ from, to }: RecalcOptions): string | null {
  if (resolve(from) === resolve(to))
    return `--export names the list itself. Give the result another name than ${from}.`;
  try {
    if (statSync(dirname(resolve(to))).isDirectory()) return null;
  } catch {
    // Told below, as for a file in the place of a folder.
  }
  return `There is no folder ${dirname(to)} to write ${basename(to)} into. Make it, or choose another.`;
}

function readBytes(from: string): Uint8Array | string {
  try {
    return readFileSync(from);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : '';
    if (code === 'ENOENT') return `There is no file ${from}. Check the name and the folder.`;
    if (code === 'EISDIR') return `${from} is a folder. Give the file in it.`;
    return `${from} cannot be read: ${error instanceof Error ? error.message : String(error)}.`;
  }
}

/** Written beside its place and moved there, so that half a result is never taken for one. */
function writeWhole(
  to: string,
  texts: readonly string[],
  fail: (sentence: string) => number,
): number {
  const beside = `${to}.part`;
  try {
    writeFileSync(beside, texts.join(''));
    renameSync(beside, to);
    return 0;
  } catch (error) {
    rmSync(beside, { force: true });
    return fail(
      `${to} cannot be written: ${error instanceof Error ? error.message : String(error)}.`,
    );
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  process.exitCode = await main(process.argv.slice(2), (sentence) => console.error(sentence));
}
