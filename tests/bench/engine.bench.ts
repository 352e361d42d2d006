import type { Notebook } from '../../shared/notebook.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { toStored } from '../../src/engine/stored-formula.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { figuresOf } from '../../src/notebook/read.ts';
import {
  edited,
  fields,
  formulaColumn,
  nextStamp,
  summerNotebook,
  typing,
} from '../build-notebook.ts';
import type { Row } from './bench.ts';
import { threadTime } from './thread-time.ts';

export const name = 'Working figures out, on the thread’s own clock where the system tells it';

const day = '2026-05-03';
const other = '2026-05-17';

/** A summer grazing notebook with so many animals, all counted on two days. */
function herdOf(size: number): Notebook {
  const animals: Record<string, { group: string }> = {};
  const counts: Record<string, Record<string, string>> = {};
  for (let i = 0; i < size; i++) {
    const id = `s${String(i).padStart(5, '0')}`;
    animals[id] = { group: i % 2 === 0 ? 'ewes' : 'lambs' };
    counts[id] = {
      chamber1: String(i % 37),
      chamber2: String((i * 7) % 41),
      eyelid: String(1 + (i % 5)),
    };
  }
  return summerNotebook({
    animals,
    days: { [day]: {}, [other]: {} },
    counts: { [day]: counts, [other]: counts },
  });
}

/** Notes how long the page would be kept waiting: the time from one pause to the next. */
class Slices {
  longest = 0;
  private since = threadTime();

  start(): void {
    this.longest = 0;
    this.since = threadTime();
  }

  readonly pause = async (): Promise<void> => {
    this.longest = Math.max(this.longest, threadTime() - this.since);
    await new Promise((done) => setImmediate(done));
    this.since = threadTime();
  };
}

function ms(value: number): string {
  return `${value < 10 ? value.toFixed(2) : value.toFixed(0)} ms`;
}

function quantile(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
}

/** Types counts one after the other, as the session does, and times each. */
async function typed(
  notebook: Notebook,
  size: number,
  times: number,
  slices: Slices,
): Promise<readonly number[]> {
  const engine = createEngine(slices.pause);
  await engine.open(notebook, day);
  let now = structuredClone(notebook);
  await engine.open(now, day);
  const taken: number[] = [];
  for (let i = 0; i < times; i++) {
    const row = `s${String((i * 37) % size).padStart(5, '0')}`;
    const sets = [typing(now, day, row, 'chamber1', String(50 + i))];
    const edit = { label: 'count', source: 'typed' as const, sets };
    const { notebook: next, changes } = applyEdit(now, edit, nextStamp(), 'days in place');
    now = next;
    const start = threadTime();
    await engine.apply(now, changes);
    taken.push(threadTime() - start);
  }
  return taken;
}

export async function run(): Promise<readonly Row[]> {
  const rows: Row[] = [];
  const slices = new Slices();
  await typed(herdOf(200), 200, 50, slices);
  for (const [size, budget] of [
    [200, '1 ms p50, 5 ms p99'],
    [10_000, '1 ms p50, 5 ms p99'],
  ] as const) {
    const times = await typed(herdOf(size), size, 300, slices);
    rows.push({
      what: `A typed count, ${size.toLocaleString('en')} animals, formulas of the row`,
      measured: `${ms(quantile(times, 0.5))} p50, ${ms(quantile(times, 0.99))} p99`,
      budget,
    });
  }

  const herd = herdOf(10_000);
  const withMean = edited(herd, formulaColumn(herd, 'above', 'epg - mean_epg')).notebook;
  const named = await typed(withMean, 10_000, 30, slices);
  rows.push({
    what: 'A typed count, 10,000 animals, a column that names a herd figure',
    measured: `${ms(quantile(named, 0.5))} p50, ${ms(quantile(named, 0.99))} p99`,
    budget: '100 ms p50',
  });

  const engine = createEngine(slices.pause);
  slices.start();
  let start = threadTime();
  await engine.open(herd, day);
  rows.push({
    what: 'Opening a day of 10,000 animals',
    measured: `${ms(threadTime() - start)}, longest wait ${ms(slices.longest)}`,
    budget: '3 s, 50 ms',
  });

  slices.start();
  start = threadTime();
  const asked = figuresOf(herd).map(({ formula }) => ({ formula, day, group: null }));
  await engine.figures(asked);
  rows.push({
    what: `${asked.length} figures of 10,000 animals, after paint`,
    measured: `${ms(threadTime() - start)}, longest wait ${ms(slices.longest)}`,
    budget: '500 ms, 50 ms',
  });

  slices.start();
  start = threadTime();
  const season = { formula: toStored(herd, 'HERDMEAN(herd.epg)'), day: other, group: null };
  await engine.figures([season]);
  rows.push({
    what: 'A figure of another day of 10,000 animals, loaded and dropped',
    measured: `${ms(threadTime() - start)}, longest wait ${ms(slices.longest)}`,
    budget: '2 s, 50 ms',
  });

  const flock = herdOf(2000);
  const flockEngine = createEngine(slices.pause);
  await flockEngine.open(flock, day);
  const gone = Array.from({ length: 200 }, (_, i) => `s${String(i * 10 + 3).padStart(5, '0')}`);
  const removal = edited(
    flock,
    gone.flatMap((id) => fields('animals', id, { removed: true })),
  );
  start = threadTime();
  await flockEngine.apply(removal.notebook, removal.changes);
  rows.push({
    what: '200 scattered animals out of 2,000',
    measured: ms(threadTime() - start),
    budget: '300 ms',
  });
  return rows;
}
