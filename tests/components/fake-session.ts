import type { CriterionAnswer, Engine, Explanation } from '../../shared/derived.ts';
import type { Change } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import type { ColumnId, DayId, Ref, RowId } from '../../shared/ref.ts';
import type { Template } from '../../shared/template.ts';
import { isFault, type Fault, type Value } from '../../shared/value.ts';
import { cupState } from '../../components/cup-state.ts';
import { FollowingSession } from '../../components/following-session.ts';
import { demoNotebook } from '../../src/notebook/demo.ts';
import { addDay } from '../../src/notebook/edit-days.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { fromTemplate } from '../../src/notebook/from-template.ts';
import { columnByKey, columnOf, dayOf, readingOf } from '../../src/notebook/read.ts';
import { ordersAtEnd, setsOf } from '../../src/notebook/record-sets.ts';
import { Clock } from '../../src/session/clock.ts';
import { Session } from '../../src/session/session.ts';
import summer from '../../templates/summer-grazing.json' with { type: 'json' };

/** The one wrong formula the fake engine knows. */
export const wrongFormula: Fault = {
  fault: 'no-such-name',
  sentence: 'There is no column called epq. Did you mean epg?',
};

/**
 * An engine of a few lines for tests of the screen: eggs are the sum of the chambers, the factor is
 * 100 by the areas counted, epg their product. It answers as the true one does, by ids and by promise.
 */
export class FakeEngine implements Engine {
  private notebook: Notebook | null = null;
  private day: DayId = '';
  private held: RowId | null = null;
  /** Calls of `dayColumn`, to see that figures of other days are kept. */
  readonly asked: string[] = [];

  async open(notebook: Notebook, day: DayId): Promise<void> {
    this.notebook = notebook;
    this.day = day;
  }

  async apply(notebook: Notebook, changes: readonly Change[]): Promise<readonly Ref[]> {
    this.notebook = notebook;
    return changes.flatMap(({ path }) => {
      if (path[0] !== 'readings' || path[1] !== this.day) return [];
      return ['c-epg', 'c-outcome'].map((column) => ({ day: this.day, row: path[2], column }));
    });
  }

  async holdBack(row: RowId | null): Promise<readonly Ref[]> {
    const rows = [this.held, row].filter((r) => r !== null);
    this.held = row;
    return rows.map((r) => ({ day: this.day, row: r, column: 'c-epg' }));
  }

  value(row: RowId, column: ColumnId): Value {
    return this.notebook ? this.valueOn(this.notebook, this.day, row, column) : null;
  }

  private valueOn(notebook: Notebook, day: DayId, row: RowId, column: ColumnId): Value {
    const facts = columnOf(notebook, column);
    const typed = readingOf(notebook, day, row, column);
    if (facts?.kind !== 'formula' || typed?.kind === 'number')
      return typed?.kind === 'number' ? typed.value : typed?.kind === 'text' ? typed.text : null;
    if (facts.key === 'grams') return dayOf(notebook, day)?.grams ?? null;
    const counts = ['c-chamber1', 'c-chamber2'].map((id) => readingOf(notebook, day, row, id));
    const numbers = counts.flatMap((r) => (r?.kind === 'number' ? [r.value] : []));
    const isHeld = day === this.day && row === this.held && numbers.length === 1;
    if (numbers.length === 0 || isHeld || cupState(notebook, day, row).isOut) return null;
    const eggs = numbers.reduce((a, b) => a + b, 0);
    const factor = 100 / numbers.length;
    const known: Record<string, Value> = { eggs, factor, epg: eggs * factor };
    return known[facts.key] ?? null;
  }

  criteria(row: RowId): readonly CriterionAnswer[] {
    const notebook = this.notebook;
    if (!notebook) return [];
    return (dayOf(notebook, this.day)?.criteria ?? []).map((criterion) => {
      const key = ['eyelid', 'jaw', 'epg'].find((k) => criterion.condition.includes(k)) ?? '';
      const value = this.value(row, `c-${key}`);
      const limit = key === 'epg' ? 500 : 4;
      const holds = typeof value === 'number' ? value >= limit : null;
      return { criterion: criterion.id, holds, lacking: holds === null && key ? [key] : [] };
    });
  }

  async dayColumn(
    notebook: Notebook,
    day: DayId,
    column: ColumnId,
  ): Promise<ReadonlyMap<RowId, Value>> {
    this.asked.push(`${day} ${column}`);
    const rows = Object.keys(notebook.animals);
    return new Map(rows.map((row) => [row, this.valueOn(notebook, day, row, column)]));
  }

  async figures(): Promise<readonly never[]> {
    return [];
  }

  evaluate(): Value {
    return null;
  }

  check(shown: string): Fault | null {
    return shown.includes('epq') ? wrongFormula : null;
  }

  explain(row: RowId, column: ColumnId): Explanation | null {
    const facts = this.notebook && columnOf(this.notebook, column);
    if (facts?.kind !== 'formula') return null;
    return {
      formula: 'EPG(eggs, factor)',
      withValues: `EPG(${JSON.stringify(this.value(row, 'c-eggs'))}, ${JSON.stringify(this.value(row, 'c-factor'))})`,
      value: this.value(row, column),
      inputs: ['eggs', 'factor'].map((key) => ({ key, value: this.value(row, `c-${key}`) })),
      functions: ['EPG'],
    };
  }
}

const stamp = [0, 0, 'bench'] as const;

const bind = (_notebook: Notebook, shown: string): string => shown;

/** The demo flock under the fake engine, its newest day open. */
export async function demoSession(): Promise<{ session: Session; engine: FakeEngine }> {
  return openSession(demoNotebook(summer as unknown as Template, stamp, bind));
}

let plainNotebooks = 0;

/** `count` animals `A-001` … on 3 May 2026, nothing typed, from the summer template; no further egg types looked for. */
export async function plainSession(
  count: number,
  days: readonly string[] = ['2026-05-03'],
): Promise<{ session: Session; engine: FakeEngine }> {
  const start = fromTemplate(summer as unknown as Template, {
    id: `n-plain-${(plainNotebooks += 1)}`,
    title: 'Plain',
    stamp,
    bind,
  });
  const orders = ordersAtEnd([], count);
  const animals = orders.flatMap((order, i) => {
    const tag = `A-${String(i + 1).padStart(3, '0')}`;
    const group = i % 2 === 0 ? 'ewes' : 'lambs';
    return [
      ...setsOf('animals', tag, { tag, name: '', species: 'sheep', class: 'ewe', order }),
      { path: ['groups', tag, '2026-01-01'] as const, value: group },
    ];
  });
  const withAnimals = applyEdit(
    start,
    { label: 'animals', source: 'template', sets: animals },
    stamp,
  ).notebook;
  const notebook = days.reduce((so, day) => {
    const added = addDay(so, day, '');
    if (isFault(added)) throw new Error(added.sentence);
    const sets = [
      ...added.edit.sets,
      { path: ['days', added.id, 'lookedFor'] as const, value: [] },
    ];
    return applyEdit(so, { ...added.edit, sets }, stamp).notebook;
  }, withAnimals);
  return openSession(notebook);
}

async function openSession(notebook: Notebook): Promise<{ session: Session; engine: FakeEngine }> {
  let ms = 1_780_000_000_000;
  const now = (): number => (ms += 1);
  const engine = new FakeEngine();
  const session = new Session(notebook, { engine, clock: new Clock('bench', now), now });
  await session.openNewest();
  return { session, engine };
}

/**
 * The same notebook in a session of its own, no day open yet: as when another tab takes the writing over
 * (`following`) or leaves it to this one.
 */
export function sessionAgain(
  former: Session,
  role: 'writing' | 'following' = 'writing',
  refuse: () => void = () => {},
): Session {
  let ms = 1_790_000_000_000;
  const now = (): number => (ms += 1);
  const parts = { engine: new FakeEngine(), clock: new Clock('again', now), now };
  return role === 'writing'
    ? new Session(former.notebook, parts)
    : new FollowingSession(former.notebook, parts, refuse);
}

/** What is typed in a cell, by the column's key; undefined when nothing is. */
export function typedIn(session: Session, row: string, key: string): string | undefined {
  const column = columnByKey(session.notebook, key);
  const day = session.openDay;
  return column && day ? readingOf(session.notebook, day, row, column.id)?.text : undefined;
}
