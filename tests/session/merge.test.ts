import { describe, expect, it } from 'vitest';
import type { SetTo, Transaction } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { readingOf } from '../../src/notebook/read.ts';
import { Clock } from '../../src/session/clock.ts';
import { Session } from '../../src/session/session.ts';
import { Copy, counted, twoCopies } from '../notebook/copies.ts';
import { stillEngine } from './still-engine.ts';

const day = '2026-05-03';
const count = (column: string, value: number): SetTo => ({
  path: ['readings', day, 'a1', column],
  value: counted(value),
});

function sessionOf(notebook: Notebook) {
  const engine = stillEngine();
  const appended: Transaction[] = [];
  const replaced: Notebook[] = [];
  const journal = {
    append: async (transaction: Transaction) => void appended.push(transaction),
    replace: async (whole: Notebook) => void replaced.push(structuredClone(whole)),
  };
  const clock = new Clock('bench', () => 1_777_800_050_000);
  const session = new Session(notebook, { engine, clock, journal, now: () => 1_777_800_050_000 });
  return { session, engine, appended, replaced };
}

const typed = (...sets: SetTo[]) => ({ label: 'a count', source: 'typed' as const, sets });

describe('session.merge(theirs)', () => {
  it('takes in a second copy as one step, kept with what that copy had seen', async () => {
    const { phone, laptop } = twoCopies();
    phone.type(day, 'a1', 'c2', counted(5));
    const { session, appended } = sessionOf(laptop.notebook);
    const merged = await session.merge(phone.notebook);
    expect(merged.changes).toHaveLength(1);
    expect(appended).toMatchObject([{ source: 'merge' }]);
    expect(readingOf(session.notebook, day, 'a1', 'c2')).toEqual(counted(5));
    expect(session.notebook.seen['phone']).toEqual(phone.notebook.seen['phone']);
  });

  it('writes newer stamps from then on than any it has taken in', async () => {
    const { laptop } = twoCopies();
    const ahead = new Copy('ahead', () => 4e12, laptop.notebook);
    ahead.type(day, 'a1', 'c2', counted(5));
    const { session } = sessionOf(laptop.notebook);
    await session.merge(ahead.notebook);
    const step = await session.dispatch(typed(count('c2', 6)));
    expect(step?.stamp[0]).toBeGreaterThanOrEqual(4e12);
  });

  it('is taken back by undo: the former copy, as if nothing had been merged', async () => {
    const { phone, laptop } = twoCopies();
    const { session, engine, replaced } = sessionOf(laptop.notebook);
    await session.dispatch(typed(count('c3', 1)));
    phone.type(day, 'a1', 'c1', counted(9));
    phone.type(day, 'a1', 'c2', counted(5));
    const former = structuredClone(session.notebook);
    await session.merge(phone.notebook);
    expect(session.undoLabel).toBe('the merge of a second copy');
    await session.undo();
    expect(session.notebook).toEqual(former);
    expect(replaced).toEqual([former]);
    expect(engine.applied.at(-1)?.map(({ path }) => path[3])).toEqual(['c1', 'c2']);
    const again = await session.merge(phone.notebook);
    expect(again.changes).toHaveLength(2);
    await session.undo();
    await session.undo();
    expect(readingOf(session.notebook, day, 'a1', 'c3')).toBeUndefined();
  });

  it('stays from the next edit on, and undo takes back that edit alone', async () => {
    const { phone, laptop } = twoCopies();
    phone.type(day, 'a1', 'c2', counted(5));
    const { session } = sessionOf(laptop.notebook);
    await session.merge(phone.notebook);
    await session.dispatch(typed(count('c3', 1)));
    await session.undo();
    await session.undo();
    expect(readingOf(session.notebook, day, 'a1', 'c3')).toBeUndefined();
    expect(readingOf(session.notebook, day, 'a1', 'c2')).toEqual(counted(5));
  });
});

describe('session.lookAtMerge(theirs)', () => {
  it('says what a merge would come to, and changes nothing, not even the clock', async () => {
    const { laptop } = twoCopies();
    const ahead = new Copy('ahead', () => 4e12, laptop.notebook);
    ahead.type(day, 'a1', 'c2', counted(5));
    const { session } = sessionOf(laptop.notebook);
    const before = structuredClone(session.notebook);
    expect(session.lookAtMerge(ahead.notebook).changes).toHaveLength(1);
    expect(session.notebook).toEqual(before);
    const step = await session.dispatch(typed(count('c2', 6)));
    expect(step?.stamp[0]).toBeLessThan(4e12);
  });
});

describe('session.takeIn(…)', () => {
  it('follows another tab, change by change', async () => {
    const { laptop } = twoCopies();
    const { session } = sessionOf(structuredClone(laptop.notebook));
    const edit = typed(count('c2', 6), count('c3', 7));
    const stamp = laptop.stamp();
    const { changes, notebook } = applyEdit(laptop.notebook, edit, stamp);
    await session.takeIn(edit.label, edit.source, changes);
    expect(session.notebook).toEqual(notebook);
    expect(session.undoLabel).toBeNull();
  });
});
