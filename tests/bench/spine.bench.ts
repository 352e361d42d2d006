import type { HyperFormula } from 'hyperformula';
import { Book } from '../../src/engine/book.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { newCalculator } from '../../src/engine/formula-plugin.ts';
import { inOneGo } from '../../src/engine/pause.ts';
import { openDayRoots } from '../../src/engine/plan.ts';
import { Slots } from '../../src/engine/slots.ts';
import { Clock } from '../../src/session/clock.ts';
import { Session } from '../../src/session/session.ts';
import type { Row } from './bench.ts';
import { dayIds, seasonNotebook, tagOf } from './season-notebook.ts';
import { threadTime } from './thread-time.ts';

export const name = 'One typed count: edit, engine and notice, beside the calculating engine alone';

const counts = 100;
const rounds = 9;
const day = dayIds(1)[0] ?? '';

/** The formulas of the notebook in the calculating engine, and nothing around it. */
function bareEngine(animals: number): (row: string, value: number) => void {
  const notebook = seasonNotebook(animals, 1);
  const calculator: HyperFormula = newCalculator();
  const book = new Book(notebook, openDayRoots(notebook, day), new Slots(), calculator);
  inOneGo(book.load());
  const sheet = calculator.getSheetId(book.layout.rowSheet(day)) ?? 0;
  const col = book.layout.columnOf('c:c-chamber1');
  return (row, value) => {
    calculator.setCellContents({ sheet, row: book.slotOf(row) ?? 0, col }, [[value]]);
  };
}

async function wholeSpine(
  animals: number,
): Promise<(row: string, value: number) => Promise<unknown>> {
  let ms = 1_780_000_000_000;
  const now = (): number => (ms += 1);
  const session = new Session(seasonNotebook(animals, 1), {
    engine: createEngine(),
    clock: new Clock('bench', now),
    now,
  });
  await session.open(day);
  session.subscribe(() => undefined);
  return (row, value) =>
    session.dispatch({
      label: 'a count',
      source: 'typed',
      sets: [
        {
          path: ['readings', day, row, 'c-chamber1'],
          value: { kind: 'number', text: String(value), value },
        },
      ],
    });
}

function middle(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;
}

export async function run(): Promise<readonly Row[]> {
  const rows: Row[] = [];
  for (const animals of [100, 1000, 10_000]) {
    const bare = bareEngine(animals);
    const spine = await wholeSpine(animals);
    const alone: number[] = [];
    const whole: number[] = [];
    const ratios: number[] = [];
    // Both in turns, so that what else the machine does falls on both alike; the first rounds warm up.
    for (let round = -2; round < rounds; round += 1) {
      const places = Array.from({ length: counts }, (_, i) => tagOf((i * 37) % animals));
      let start = threadTime();
      places.forEach((row, i) => bare(row, 1000 * (round + 3) + i));
      const bareMs = (threadTime() - start) / counts;
      start = threadTime();
      for (const [i, row] of places.entries()) await spine(row, 1000 * (round + 3) + i);
      const spineMs = (threadTime() - start) / counts;
      if (round < 0) continue;
      alone.push(bareMs);
      whole.push(spineMs);
      ratios.push(spineMs / bareMs);
    }
    rows.push({
      what: `a typed count, ${animals.toLocaleString('en')} animals`,
      measured: `${middle(ratios).toFixed(2)} × (${middle(whole).toFixed(3)} ms)`,
      budget: '1.5 ×',
      bareEngine: `${middle(alone).toFixed(3)} ms`,
      note: 'the same formulas; thread time, middle of 9 rounds',
    });
  }
  return rows;
}
