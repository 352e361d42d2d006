import type { Browser, Page } from 'playwright-core';

/** One piece of work of the page's main thread, that no other of the page interrupts. Milliseconds. */
export interface Task {
  readonly start: number;
  /** On the thread's own clock, so that other programs do not count. */
  readonly took: number;
}

/** What the main thread did while something was done to the page. */
export interface Traced {
  readonly tasks: readonly Task[];
  /** When the page's own marks were set, by name. */
  readonly marks: ReadonlyMap<string, readonly number[]>;
  readonly keydowns: readonly number[];
  /** When a frame was handed over to be drawn. */
  readonly frames: readonly number[];
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** Microseconds. */
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args?: { readonly data?: { readonly type?: string } };
}

const categories = ['devtools.timeline', 'disabled-by-default-devtools.timeline', 'toplevel'];

/** Does something to the page and looks what the main thread had to do. Times count from the page's first mark. */
export async function traced(
  browser: Browser,
  page: Page,
  work: () => Promise<void>,
): Promise<Traced> {
  await browser.startTracing(page, { categories: [...categories, 'blink.user_timing'] });
  await work();
  const text = (await browser.stopTracing()).toString();
  const { traceEvents } = JSON.parse(text) as { traceEvents: readonly TraceEvent[] };
  return read(traceEvents);
}

function read(all: readonly TraceEvent[]): Traced {
  const ours = all.find(({ name }) => name === 'begin-of-bench');
  const events = all
    .filter(({ pid, tid }) => pid === ours?.pid && tid === ours.tid)
    .sort((a, b) => a.ts - b.ts);
  const origin = ours?.ts ?? 0;
  const since = ({ ts }: TraceEvent): number => (ts - origin) / 1000;
  const tasks: Task[] = [];
  let end = -Infinity;
  for (const event of events) {
    const isTask = event.name === 'RunTask' && event.ph === 'X';
    if (!isTask || event.ts < end || event.ts + (event.dur ?? 0) < origin) continue;
    end = event.ts + (event.dur ?? 0);
    tasks.push({ start: since(event), took: (event.tdur ?? event.dur ?? 0) / 1000 });
  }
  const marks = new Map<string, number[]>();
  for (const event of events)
    if (event.name.startsWith('bench-'))
      marks.set(event.name, [...(marks.get(event.name) ?? []), since(event)]);
  return {
    tasks,
    marks,
    keydowns: events
      .filter(({ args, ph }) => ph === 'X' && args?.data?.type === 'keydown')
      .map(since),
    frames: events.filter(({ name, ph }) => name === 'Commit' && ph === 'X').map(since),
  };
}

/** Work that begins between two moments. */
export function workBetween({ tasks }: Traced, from: number, to: number): number {
  return tasks
    .filter(({ start }) => start >= from && start < to)
    .reduce((sum, { took }) => sum + took, 0);
}

export function longestTask({ tasks }: Traced, from = -Infinity, to = Infinity): number {
  return Math.max(
    0,
    ...tasks.filter(({ start }) => start >= from && start < to).map(({ took }) => took),
  );
}

export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? NaN;
}
