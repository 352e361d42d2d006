import Papa from 'papaparse';
import { isFault } from '../../shared/value.ts';
import { planToEdit } from '../../src/csv/import-edit.ts';
import { isNotebookHeading } from '../../src/csv/import-roles.ts';
import { planImport, planNow } from '../../src/csv/plan-import.ts';
import { readTable } from '../../src/csv/read-table.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { summerNotebook } from '../build-notebook.ts';
import type { Row } from './bench.ts';

export const name = 'Import of a season: 10,000 animals × 12 days, 120,000 rows';

const animals = 10_000;
const days = Array.from({ length: 12 }, (_, i) => `2026-${String(i + 1).padStart(2, '0')}-03`);

function season(): Uint8Array {
  const lines = ['tag,date,chamber1,chamber2,eyelid,weight,note'];
  days.forEach((day, d) => {
    for (let a = 0; a < animals; a++) {
      const luck = (a * 7919 + d * 104_729) % 997;
      const note = luck === 3 ? '"lame, left hind"' : '';
      lines.push(
        `T${String(a).padStart(5, '0')},${day},${luck % 31},${luck % 29},${1 + (luck % 5)},${30 + (luck % 20)} kg,${note}`,
      );
    }
  });
  return new TextEncoder().encode(`${lines.join('\r\n')}\r\n`);
}

/** The middle of five runs, in milliseconds. */
function middle(work: () => unknown, runs = 5): number {
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)] ?? 0;
}

export async function run(): Promise<readonly Row[]> {
  const bytes = season();
  const empty = summerNotebook({});
  const text = new TextDecoder().decode(bytes);
  const isHeading = isNotebookHeading(empty);
  const options = () => {
    let ids = 0;
    return { newId: () => `n${(ids += 1)}` };
  };
  const alone = middle(() => Papa.parse<string[]>(text).data.length);
  const reading = middle(() => readTable(bytes, { isHeading }).rows.length);
  const table = readTable(bytes, { isHeading });
  const planning = middle(() => planNow(table, empty, options()).count, 3);
  const plan = planNow(table, empty, options());
  const doing = middle(() => {
    const edit = planToEdit(empty, plan, 'season.csv');
    if (isFault(edit)) throw new Error(edit.sentence);
    return applyEdit(empty, edit, [1, 0, 'bench']).changes.length;
  }, 3);
  const all = reading + planning + doing;
  const times = (ms: number): string => `${(ms / alone).toFixed(1)} × papaparse alone`;
  const row = (what: string, ms: number, budget: string): Row => ({
    what,
    measured: `${ms.toFixed(0)} ms`,
    budget,
    note: times(ms),
  });
  return [
    row('papaparse alone, to rows of text', alone, 'none: the measure of the others'),
    row('bytes to a table: encoding, separator, header, faults', reading, '3 × papaparse'),
    row(`the plan: roles, tags, ${plan.count} values, in slices`, planning, '20 × papaparse'),
    row('one edit, applied', doing, '20 × papaparse'),
    row('all of it', all, '40 × papaparse'),
    { ...longestSlice(table, empty, options()), note: 'between two chances for the page to paint' },
  ];
}

function longestSlice(
  table: Parameters<typeof planImport>[0],
  empty: Parameters<typeof planImport>[1],
  options: Parameters<typeof planImport>[2],
): Row {
  const work = planImport(table, empty, options);
  const slices: number[] = [];
  for (let done = false; !done;) {
    const start = performance.now();
    done = work.next().done === true;
    slices.push(performance.now() - start);
  }
  const [first = 0, ...rest] = slices;
  const sorted = rest.sort((a, b) => a - b);
  const p99 = sorted[Math.floor(sorted.length * 0.99)] ?? 0;
  return {
    what: 'one slice of the plan',
    measured: `${p99.toFixed(1)} ms p99, first ${first.toFixed(0)} ms`,
    budget: '50 ms',
  };
}
