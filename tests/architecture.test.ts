import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import {
  arrowFaults,
  importLoops,
  lengthFaults,
  markupFaults,
  packageFaults,
  readImports,
  readSources,
  topLevelFaults,
} from './import-graph.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const sources = readSources(root, ['shared', 'src', 'components']);
const imports = readImports(sources);
const { dependencies } = JSON.parse(readFileSync(`${root}/package.json`, 'utf8')) as {
  dependencies: Record<string, string>;
};

const MOST_LINES = 400;

/** Files that are better long, each with the reason. */
const LONG_FILES: Readonly<Record<string, string>> = {};

describe('the source', () => {
  it('was found', () => {
    expect(sources.size).toBeGreaterThan(10);
    expect(imports.get('src/cli/ports.ts')).toContain('src/cli/static-server.ts');
  });

  it('points down only: components → src → shared', () => {
    expect(arrowFaults(imports)).toEqual([]);
  });

  it('has no loops of imports', () => {
    expect(importLoops(imports)).toEqual([]);
  });

  it('imports each package in its one home', () => {
    expect(packageFaults(imports, Object.keys(dependencies))).toEqual([]);
  });

  it(`has no file over ${MOST_LINES} lines without a reason`, () => {
    expect(lengthFaults(sources, MOST_LINES, LONG_FILES)).toEqual([]);
  });

  it('never makes markup out of text, nor writes style or selected attributes', () => {
    expect(markupFaults(sources)).toEqual([]);
  });

  it('keeps the top level to the files that belong there', () => {
    expect(topLevelFaults(readdirSync(root))).toEqual([]);
  });
});

describe('the checks themselves', () => {
  const bad = readImports(
    new Map([
      ['shared/units.ts', `import { mean } from '../src/stats/mean.ts'; import 'papaparse';`],
      ['src/stats/mean.ts', `import type { Grid } from '../../components/grid.ts';`],
      ['src/text/parse.ts', `export * from '../notebook/create.ts';`],
      ['src/notebook/create.ts', `import { a } from './apply.ts'; import dayjs from 'dayjs';`],
      ['src/notebook/apply.ts', `const m = await import('./create.ts');`],
      [
        'src/csv/read.ts',
        `import { Engine } from '../engine/engine.ts'; import Papa from 'papaparse';`,
      ],
      ['src/engine/engine.ts', `import { HyperFormula } from 'hyperformula';`],
      ['src/helpers/all.ts', ``],
      ['components/grid.ts', `new Worker(new URL('../tests/odd.worker.ts', import.meta.url));`],
      ['components/herd.ts', `import { HyperFormula } from 'hyperformula'; import 'lit/html.js';`],
      ['components/charts.ts', `const plot = await import('@observablehq/plot');`],
      ['components/plot-counts.ts', `const plot = await import('@observablehq/plot');`],
    ]),
  );

  it('find every arrow that does not point down', () => {
    expect(arrowFaults(bad).map((fault) => fault.split(':')[0])).toEqual([
      'shared/units.ts imports src/stats/mean.ts',
      'src/stats/mean.ts imports components/grid.ts',
      'src/text/parse.ts imports src/notebook/create.ts',
      'src/csv/read.ts imports src/engine/engine.ts',
      'src/helpers/all.ts',
      'components/grid.ts imports tests/odd.worker.ts',
    ]);
  });

  it('find a loop, and name its members', () => {
    expect(importLoops(bad)).toEqual([
      'src/notebook/create.ts → src/notebook/apply.ts → src/notebook/create.ts',
    ]);
  });

  it('find packages away from home, without a home, or not installed with the program', () => {
    const installed = ['papaparse', 'hyperformula', 'lit', '@observablehq/plot'];
    expect(packageFaults(bad, installed)).toEqual([
      'shared/units.ts imports papaparse, which is at home in src/csv only.',
      'src/notebook/create.ts imports dayjs, which has been given no home.',
      'src/notebook/create.ts imports dayjs, which is not among the dependencies.',
      'components/herd.ts imports hyperformula, which is at home in src/engine only.',
      'components/charts.ts imports @observablehq/plot, which is at home in components/plot-*.ts only.',
    ]);
  });

  it('find long files, and stale reasons', () => {
    const files = new Map([
      ['src/a.ts', 'x\n'.repeat(401)],
      ['src/b.ts', 'x\n'.repeat(401)],
      ['src/c.ts', 'x\n'.repeat(400)],
    ]);
    const reasons = { 'src/b.ts': 'one table', 'src/c.ts': 'was long', 'src/d.ts': 'was there' };
    expect(lengthFaults(files, 400, reasons)).toEqual([
      'src/a.ts has 401 lines, more than 400.',
      'src/c.ts is no longer long: take it off the list.',
      'src/d.ts is listed as long and does not exist.',
    ]);
  });

  it('find markup made of text, style and selected attributes, but let styleMap pass', () => {
    const files = new Map([
      [
        'components/note.ts',
        'html`<p\n style="color: red">${unsafeHTML(x)}</p>`;\nthis.innerHTML = text;',
      ],
      ['components/bar.ts', "html`<i style=${styleMap({ width: '3%' })}></i>`;"],
      ['components/list.ts', 'html`<option ?selected=${isChosen}></option>`;'],
      ['src/text/escape.ts', '// not part of the page: innerHTML'],
    ]);
    expect(markupFaults(files)).toEqual([
      'components/note.ts:2 has style=.',
      'components/note.ts:2 has unsafeHTML.',
      'components/note.ts:3 has innerHTML.',
      'components/list.ts:1 has ?selected=.',
    ]);
  });

  it('find a stray file at the top', () => {
    expect(topLevelFaults(['README.md', 'src', '.git', 'dist', 'notes.txt'])).toEqual([
      'notes.txt does not belong at the top: put it in the folder it serves.',
    ]);
  });
});
