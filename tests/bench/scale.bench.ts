import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { build } from 'esbuild';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { createStaticServer } from '../../src/cli/static-server.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { figuresOf } from '../../src/notebook/read.ts';
import { launchBrowser } from '../browser.ts';
import type { Row } from './bench.ts';
import { dayIds, seasonNotebook, tagOf } from './season-notebook.ts';
import { threadTime } from './thread-time.ts';
import { longestTask, quantile, traced, workBetween, type Traced } from './trace.ts';

export const name =
  'The whole page at 10,000 animals, every block of its template, built as it is served';

const animals = 10_000;
const root = fileURLToPath(new URL('../..', import.meta.url));
const ms = (value: number): string => `${value.toFixed(value < 10 ? 1 : 0)} ms`;

/** The engine without a page, on the thread's own clock. */
async function bareEngine(days: number): Promise<{ open: number; typed: number[]; asked: number }> {
  const day = dayIds(days).at(-1) ?? '';
  let now = seasonNotebook(animals, days);
  const engine = createEngine();
  let start = threadTime();
  await engine.open(now, day);
  const open = threadTime() - start;
  const typed: number[] = [];
  for (let i = 0; i < 300; i += 1) {
    const path = ['readings', day, tagOf((i * 37) % animals), 'c-chamber1'] as const;
    const value = { kind: 'number', text: String(50 + i), value: 50 + i };
    const edit = { label: 'a count', source: 'typed', sets: [{ path, value }] } as const;
    const { notebook, changes } = applyEdit(now, edit, [2, i, 'bench'], 'days in place');
    now = notebook;
    start = threadTime();
    await engine.apply(now, changes);
    typed.push(threadTime() - start);
  }
  start = threadTime();
  const groups = ['ewes', 'lambs', null];
  await engine.figures(
    groups.flatMap((group) => figuresOf(now).map(({ formula }) => ({ formula, day, group }))),
  );
  return { open, typed, asked: threadTime() - start };
}

/** A file of this folder as a script for the page. */
async function pageCode(file: string): Promise<string> {
  const built = await build({
    entryPoints: [`${root}/tests/bench/${file}`],
    absWorkingDir: root,
    bundle: true,
    format: 'iife',
    target: 'es2022',
    write: false,
    logLevel: 'silent',
  });
  return built.outputFiles[0]?.text ?? '';
}

/** A browser that keeps a notebook of so many days, and a page that has not opened it yet. */
async function filled(
  browser: Browser,
  address: string,
  days: number,
): Promise<{ context: BrowserContext; page: Page; url: string }> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 800 },
    serviceWorkers: 'block',
  });
  const first = await context.newPage();
  await first.goto(address);
  await first.evaluate(await pageCode('fill-store.ts'));
  const counted = Math.floor(animals / 2);
  const id = await first.evaluate<string>(`fillStore(${animals}, ${days}, ${counted})`);
  await first.close();
  const page = await context.newPage();
  await page.addInitScript({ content: await pageCode('watch-page.ts') });
  return { context, page, url: `${address}#notebook=${id}` };
}

/** Until nothing more is worked out: the page rests for three seconds. */
async function settled(page: Page): Promise<void> {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('Performance.enable');
  const busy = async (): Promise<number> => {
    const { metrics } = await cdp.send('Performance.getMetrics');
    return metrics.find((metric) => metric.name === 'TaskDuration')?.value ?? 0;
  };
  // The page's content policy forbids the polling of the driver, which is an eval.
  const live = "performance.getEntriesByName('bench-live').length > 0";
  while (!(await page.evaluate<boolean>(live))) await page.waitForTimeout(500);
  let before = await busy();
  for (let resting = 0; resting < 3;) {
    await page.waitForTimeout(1000);
    const now = await busy();
    resting = now - before < 0.1 ? resting + 1 : 0;
    before = now;
  }
  await cdp.detach();
}

interface Typed {
  readonly perFrame: readonly number[];
  readonly toFigures: readonly number[];
  readonly longest: number;
}

/** Types one count after the other with time for the figures in between. */
async function typedCounts(browser: Browser, page: Page, times: number): Promise<Typed> {
  const cell = page.locator('sd-grid [data-column="chamber1"]:not(.past)');
  await cell.nth(2).click();
  for (let i = 0; i < 4; i += 1) await type(page, i, 300);
  const found = await traced(browser, page, async () => {
    await page.evaluate("performance.mark('begin-of-bench')");
    for (let i = 0; i < times; i += 1) await type(page, i, 700);
  });
  const enters = found.keydowns.filter((_, i) => i % 2 === 1);
  return {
    perFrame: enters.map((from) => untilFrame(found, from)),
    toFigures: enters.flatMap((from, i) => untilFigures(found, from, enters[i + 1]) ?? []),
    longest: longestTask(found, enters[0]),
  };
}

async function type(page: Page, i: number, pause: number): Promise<void> {
  await page.keyboard.press(String(1 + (i % 9)));
  await page.keyboard.press('Enter');
  await page.waitForTimeout(pause);
}

/** Work from a key, its own task included, to the first frame handed over after it. */
function untilFrame(found: Traced, from: number): number {
  const own = found.tasks.findLast(({ start }) => start <= from)?.start ?? from;
  const frame = found.frames.find((at) => at > from) ?? from;
  return workBetween(found, own, frame);
}

function untilFigures(found: Traced, from: number, next = Infinity): number | null {
  const at = found.marks.get('bench-figures')?.find((mark) => mark > from && mark < next);
  return at === undefined ? null : workBetween(found, from, at);
}

async function scrolled(browser: Browser, page: Page): Promise<readonly number[]> {
  const box = await page.locator('sd-grid .scroller').boundingBox();
  await page.mouse.move((box?.x ?? 0) + 300, (box?.y ?? 0) + 200);
  const found = await traced(browser, page, async () => {
    await page.evaluate("performance.mark('begin-of-bench')");
    for (let i = 0; i < 60; i += 1) {
      await page.mouse.wheel(0, 240);
      await page.waitForTimeout(30);
    }
  });
  return found.frames.slice(1).map((at, i) => workBetween(found, found.frames[i] ?? 0, at));
}

export async function run(): Promise<readonly Row[]> {
  const folder = await mkdtemp(join(tmpdir(), 'daybook-scale-'));
  const vite = join(root, 'node_modules/vite/bin/vite.js');
  await promisify(execFile)(
    process.execPath,
    [vite, 'build', '--outDir', folder, '--logLevel', 'warn'],
    { cwd: root },
  );
  const server = createStaticServer({ folder, version: 'bench', usualPortTaken: false });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const address = `http://localhost:${(server.address() as AddressInfo).port}/`;
  const browser = await launchBrowser();
  try {
    const alone = await bareEngine(12);
    const { context, page, url } = await filled(browser, address, 12);
    const opening = await traced(browser, page, async () => {
      await page.goto(url);
      await settled(page);
    });
    const firstRows = opening.marks.get('bench-rows')?.[0] ?? NaN;
    const cdp = await context.newCDPSession(page);
    const heap = async (): Promise<string> => {
      await cdp.send('HeapProfiler.collectGarbage');
      const { usedSize } = await cdp.send('Runtime.getHeapUsage');
      return `${(usedSize / 1e6).toFixed(0)} MB`;
    };
    const heapLive = await heap();
    const typed = await typedCounts(browser, page, 30);
    const frames = await scrolled(browser, page);
    await context.close();

    const short = await filled(browser, address, 2);
    await short.page.goto(short.url);
    await settled(short.page);
    const typedShort = await typedCounts(browser, short.page, 30);
    await short.context.close();

    const p = (values: readonly number[]): string =>
      `${ms(quantile(values, 0.5))} p50, ${ms(quantile(values, 0.99))} p99`;
    const ratio = quantile(typed.perFrame, 0.5) / quantile(typedShort.perFrame, 0.5);
    return [
      {
        what: 'opening 10,000 animals × 12 days: to the first rows',
        measured: `${ms(workBetween(opening, -Infinity, firstRows))} of work`,
        budget: '1 s',
        bareEngine: `${ms(alone.open)} for the open day`,
        note: `${ms(firstRows)} by the clock`,
      },
      {
        what: 'longest block while it becomes live',
        measured: ms(longestTask(opening)),
        budget: '50 ms',
        note: `${opening.tasks.filter(({ took }) => took > 50).length} of ${opening.tasks.length} tasks above 50 ms: ${[
          ...opening.tasks,
        ]
          .filter(({ took }) => took > 50)
          .map(({ took, start }) => `${took.toFixed(0)} at ${(start / 1000).toFixed(1)} s`)
          .slice(0, 12)
          .join(', ')}`,
      },
      { what: 'heap once it is live', measured: heapLive, budget: '300 MB' },
      {
        what: 'a typed count, engine alone',
        measured: p(alone.typed),
        budget: '5 ms p99',
        note: 'thread time',
      },
      {
        what: 'a typed count, work to its frame',
        measured: p(typed.perFrame),
        budget: '33 ms',
        bareEngine: p(alone.typed),
      },
      {
        what: 'longest block in the half second after',
        measured: ms(typed.longest),
        budget: '50 ms',
      },
      {
        what: 'the figures after a typed count',
        measured: `${p(typed.toFigures)} of work`,
        budget: '250 ms',
        bareEngine: ms(alone.asked),
        note: `seen after ${typed.toFigures.length} of ${typed.perFrame.length} counts`,
      },
      {
        what: 'a typed count with 12 days, beside 2 days',
        measured: `${ratio.toFixed(2)} ×`,
        budget: '1.1 ×',
        note: `2 days: ${p(typedShort.perFrame)}`,
      },
      { what: 'scrolling, work per frame', measured: p(frames), budget: '16.7 ms' },
    ];
  } finally {
    await browser.close();
    server.close();
    server.closeAllConnections();
    await rm(folder, { recursive: true, force: true });
  }
}
