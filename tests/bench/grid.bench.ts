import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import { launchBrowser } from '../browser.ts';
import type { Row } from './bench.ts';

export const name =
  'The grid in Chromium, from key to paint, with the true engine: two keys each; script, style, layout, paint';

const root = fileURLToPath(new URL('../..', import.meta.url));

async function pageCode(): Promise<string> {
  const built = await build({
    entryPoints: [`${root}/tests/bench/grid-page.ts`],
    absWorkingDir: root,
    tsconfig: `${root}/tsconfig.json`,
    bundle: true,
    format: 'esm',
    target: 'es2022',
    minify: true,
    write: false,
    logLevel: 'silent',
  });
  return built.outputFiles[0]?.text ?? '';
}

/** What the browser calls its work on the page's main thread: script, style, layout, paint. */
const work = new Set([
  ...['EventDispatch', 'FunctionCall', 'RunMicrotasks', 'TimerFire', 'FireAnimationFrame'],
  ...['UpdateLayoutTree', 'Layout', 'PrePaint', 'Paint', 'Layerize', 'Commit'],
]);

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  /** Microseconds. */
  readonly ts: number;
  readonly dur?: number;
  /** The same on the thread's own clock, so that other programs do not count. */
  readonly tdur?: number;
  readonly args?: { readonly data?: { readonly type?: string } };
}

/** How many times slower a small phone is than a desk's machine, as browsers stage it. */
const slowdown = 4;

/** Counts typed at the start of a trace: the first script run under it is charged with the tracer's own start. */
const untold = 5;

/** Milliseconds of work that each typed count took, and that the same bare table took after each. */
interface Worked {
  readonly counts: readonly number[];
  readonly fixed: readonly number[];
}

/**
 * Types one count after another, each with Enter, and after each a key that lays a bare table out. A count is charged
 * with all that the page does until that key.
 */
async function typedCounts(browser: Browser, page: Page, times: number): Promise<Worked> {
  await browser.startTracing(page, { categories: ['devtools.timeline'] });
  for (let i = 0; i < untold + times; i += 1) {
    await page.keyboard.press(String(1 + (i % 9)));
    await page.keyboard.press('Enter');
    await page.waitForTimeout(90);
    await page.keyboard.press('F9');
  }
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as {
    traceEvents: TraceEvent[];
  };
  const events = traceEvents
    .filter((event) => event.ph === 'X' && work.has(event.name) && !isMouse(event))
    .sort((a, b) => a.ts - b.ts);
  const keydowns = events.filter((event) => event.args?.data?.type === 'keydown');
  const starts = keydowns.filter((_, i) => i % 3 === 0).map(({ ts }) => ts);
  const tables = keydowns.filter((_, i) => i % 3 === 2);
  const counts = starts.map((from, i) => covered(events, from, tables[i]?.ts ?? Infinity) / 1000);
  const fixed = tables.map(({ dur = 0, tdur = dur }) => tdur / 1000);
  return { counts: counts.slice(untold), fixed: fixed.slice(untold) };
}

/** The browser's own look for what lies under a mouse that is not there. */
function isMouse(event: TraceEvent): boolean {
  return event.args?.data?.type?.startsWith('mouse') === true;
}

/** Work of the events that begin between two moments; what is nested in another counts once. */
function covered(events: readonly TraceEvent[], from: number, to: number): number {
  let total = 0;
  let end = from;
  for (const { ts, dur = 0, tdur = dur } of events) {
    if (ts < Math.max(from, end) || ts >= to) continue;
    total += tdur;
    end = ts + dur;
  }
  return total;
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? NaN;
}

function words({ counts }: Worked): string {
  return `${quantile(counts, 0.5).toFixed(1)} ms p50, ${quantile(counts, 0.99).toFixed(1)} ms p99`;
}

/** What the machine's own unrest adds: by how much the bare table's p99 is above its p50. */
function unrest({ counts, fixed }: Worked): string {
  const [middle, high] = [quantile(fixed, 0.5), quantile(fixed, 0.99)];
  const still = (quantile(counts, 0.99) * middle) / high;
  return `a bare table laid out: ${middle.toFixed(1)} ms p50, ${high.toFixed(1)} ms p99; without that unrest ${still.toFixed(1)} ms p99`;
}

/** How much the slowing did to the same bare table: it is made of pauses, and no steady factor. */
function slowedBy(before: Worked, after: Worked): string {
  const factor = (share: number): string =>
    (quantile(after.fixed, share) / quantile(before.fixed, 0.5)).toFixed(1);
  return `a bare table was slowed ${factor(0.1)} × at p10, ${factor(0.5)} × at p50, ${factor(0.99)} × at p99`;
}

export async function run(): Promise<readonly Row[]> {
  const code = await pageCode();
  const server = createServer((request, response) => {
    const isCode = request.url?.startsWith('/page.js') === true;
    response.setHeader('content-type', isCode ? 'text/javascript' : 'text/html');
    response.end(
      isCode
        ? code
        : '<!doctype html><html lang="en"><title>bench</title><body><script type="module" src="/page.js"></script>',
    );
  });
  await new Promise<void>((done) => server.listen(0, done));
  const browser = await launchBrowser();
  const open = async (query: string): Promise<Page> => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.goto(`http://localhost:${(server.address() as AddressInfo).port}/?${query}`);
    await page.waitForFunction('window.bench?.isReady() === true', null, { timeout: 60_000 });
    await page.waitForTimeout(500);
    return page;
  };
  try {
    const rows: Row[] = [];
    const plain = await open('animals=500&days=4');
    await typedCounts(browser, plain, 10);
    const atOnce = await typedCounts(browser, plain, 100);
    rows.push({
      what: 'a typed count at 500 animals × 4 days',
      measured: words(atOnce),
      budget: '16.7 ms p99',
      note: unrest(atOnce),
    });
    await plain.close();

    const slow = await open('animals=600&days=4');
    await typedCounts(browser, slow, 10);
    const unslowed = await typedCounts(browser, slow, 100);
    const cdp = await slow.context().newCDPSession(slow);
    await cdp.send('Emulation.setCPUThrottlingRate', { rate: slowdown });
    await typedCounts(browser, slow, 5);
    const slowed = await typedCounts(browser, slow, 200);
    rows.push({
      what: `the same at 600 animals, processor slowed ${slowdown} ×`,
      measured: words(slowed),
      budget: '50 ms p99',
      note: slowedBy(unslowed, slowed),
    });
    rows.push({
      what: `the same at 600 animals, ${slowdown} × what it takes unslowed`,
      measured: words({ ...unslowed, counts: unslowed.counts.map((ms) => slowdown * ms) }),
      budget: '50 ms p99',
    });
    await slow.close();

    const large = await open('animals=2000&days=4');
    const blocked = async (what: string, work: string): Promise<void> => {
      const ms = await large.evaluate<number>(`bench.blocking(() => ${work})`);
      rows.push({ what, measured: `${ms.toFixed(0)} ms`, budget: '100 ms', note: 'longest block' });
    };
    const text =
      "Array.from({ length: 2000 }, (_, i) => (i % 40) + '\\t' + ((i * 3) % 40)).join('\\n')";
    await blocked('paste of 2,000 rows × 2', `bench.paste(${text})`);
    await blocked(
      'sort of 2,000 by epg',
      "bench.grid.model.sortBy({ by: { column: 'c-epg' }, isDescending: true })",
    );
    await blocked(
      'filter of 2,000 to those over the criteria',
      "bench.grid.model.filterBy({ ...bench.grid.model.filter, outcome: 'over' })",
    );
    await blocked('undo of the paste', 'bench.session.undo()');
    return rows;
  } finally {
    await browser.close();
    server.close();
  }
}
