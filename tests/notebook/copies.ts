import type { Json, Stamp } from '../../shared/cell.ts';
import type { Path, SetTo } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { applyEdit, cellAt } from '../../src/notebook/apply-edit.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { Clock } from '../../src/session/clock.ts';

/** A count as it is kept. */
export function counted(value: number): Json {
  return { kind: 'number', text: String(value), value };
}

/** One device with its copy of the notebook, and a clock that may be wrong. */
export class Copy {
  private readonly clock: Clock;

  constructor(
    readonly device: string,
    now: () => number,
    public notebook: Notebook = emptyNotebook('n'),
  ) {
    this.clock = new Clock(device, now);
    this.see(notebook);
  }

  /** Takes in what another copy has seen, and gives a stamp newer than all of it. */
  stamp(other: Notebook = this.notebook): Stamp {
    this.see(other);
    return this.clock.next();
  }

  write(...sets: SetTo[]): void {
    const edit = { label: 'a test', source: 'typed', sets } as const;
    this.notebook = applyEdit(this.notebook, edit, this.stamp()).notebook;
  }

  type(day: string, row: string, column: string, value: Json): void {
    this.write({ path: ['readings', day, row, column], value });
  }

  addAnimal(id: string, tag: string): void {
    this.write({ path: ['animals', id, 'tag'], value: tag });
  }

  take(notebook: Notebook): void {
    this.notebook = notebook;
    this.see(notebook);
  }

  values(...path: Path): Json[] {
    return (cellAt(this.notebook, path) ?? []).map(([value]) => value);
  }

  private see(notebook: Notebook): void {
    for (const [device, [ms, counter]] of Object.entries(notebook.seen))
      this.clock.saw([ms, counter, device]);
  }
}

/** Two devices that start from one notebook, with one animal and one day, the laptop ahead by 1 s. */
export function twoCopies(): { readonly phone: Copy; readonly laptop: Copy } {
  let ms = 1_777_800_000_000;
  const tick = (): number => (ms += 10);
  const laptop = new Copy('laptop', () => tick() + 1000);
  laptop.write(
    { path: ['days', '2026-05-03', 'date'], value: '2026-05-03' },
    { path: ['animals', 'a1', 'tag'], value: 'K-019' },
  );
  laptop.type('2026-05-03', 'a1', 'c1', counted(3));
  const phone = new Copy('phone', tick, laptop.notebook);
  return { phone, laptop };
}
