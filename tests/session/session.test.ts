import { describe, expect, it } from 'vitest';
import type { Edit, SetTo, Transaction } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import template from '../../templates/summer-grazing.json' with { type: 'json' };
import type { Template } from '../../shared/template.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { addAnimals } from '../../src/notebook/edit-animals.ts';
import { addDay, removeDay } from '../../src/notebook/edit-days.ts';
import { fromTemplate } from '../../src/notebook/from-template.ts';
import { readingOf } from '../../src/notebook/read.ts';
import { Clock } from '../../src/session/clock.ts';
import { historySteps } from '../../src/session/history.ts';
import { Session, type Journal, type Notice } from '../../src/session/session.ts';
import { stillEngine } from './still-engine.ts';

const day = '2026-05-03';

function started(): Notebook {
  let notebook = fromTemplate(template as unknown as Template, {
    id: 'n',
    title: 'Test',
    stamp: [1, 0, 'bench'],
    bind: (_, shown) => shown,
  });
  const ids = ['a1', 'a2'];
  const animals = addAnimals(
    notebook,
    [{ tag: '0123' }, { tag: '123' }],
    () => ids.shift() ?? '',
    day,
  );
  const added = addDay(notebook, day, '');
  if (isFault(animals) || isFault(added)) throw new Error('the builder of this test is wrong');
  for (const edit of [animals, added.edit])
    notebook = applyEdit(notebook, edit, [2, 0, 'bench']).notebook;
  return notebook;
}

function count(row: string, column: string, value: number): SetTo {
  return {
    path: ['readings', day, row, column],
    value: { kind: 'number', text: String(value), value },
  };
}

const typing = (...sets: SetTo[]): Edit => ({ label: 'a count', source: 'typed', sets });

async function openSession(journal?: Journal) {
  const engine = stillEngine();
  const clock = new Clock('bench', () => 1000);
  const session = new Session(started(), { engine, clock, journal, now: () => 5000 });
  await session.open(day);
  const notices: Notice[] = [];
  session.subscribe((notice) => notices.push(notice));
  return { session, engine, notices };
}

describe('session.dispatch(edit)', () => {
  it('tells listeners once, with the cell that changed', async () => {
    const { session, engine, notices } = await openSession();
    await session.dispatch(typing(count('a1', 'c-chamber1', 4)));
    expect(notices).toHaveLength(1);
    expect(notices[0]).toMatchObject({
      isWide: false,
      refs: [{ day, row: 'a1', column: 'c-chamber1' }],
    });
    expect(engine.applied).toHaveLength(1);
  });

  it('leaves no trace of an edit that alters nothing', async () => {
    const { session, engine, notices } = await openSession();
    await session.dispatch(typing(count('a1', 'c-chamber1', 4)));
    expect(await session.dispatch(typing(count('a1', 'c-chamber1', 4)))).toBeNull();
    expect(notices).toHaveLength(1);
    expect(engine.applied).toHaveLength(1);
    await session.undo();
    expect(session.undoLabel).toBeNull();
  });

  it('undoes 30 edits and a changed setting back to the start', async () => {
    const { session } = await openSession();
    for (let n = 0; n < 30; n += 1) await session.dispatch(typing(count('a1', 'c-chamber1', n)));
    await session.dispatch(typing({ path: ['settings', 'default', 'l-treat_from'], value: 750 }));
    for (let n = 0; n < 31; n += 1) await session.undo();
    expect(readingOf(session.notebook, day, 'a1', 'c-chamber1')).toBeUndefined();
    expect(session.notebook.settings['default']?.['l-treat_from']?.[0]?.[0]).toBe(500);
    expect(session.undoLabel).toBeNull();
    for (let n = 0; n < 31; n += 1) await session.redo();
    expect(readingOf(session.notebook, day, 'a1', 'c-chamber1')).toMatchObject({ value: 29 });
    expect(session.redoLabel).toBeNull();
  });

  it('takes back at least 500 steps', async () => {
    expect(historySteps).toBeGreaterThanOrEqual(500);
    const { session } = await openSession();
    for (let n = 0; n < 500; n += 1) await session.dispatch(typing(count('a1', 'c-chamber1', n)));
    for (let n = 0; n < 500; n += 1) await session.undo();
    expect(readingOf(session.notebook, day, 'a1', 'c-chamber1')).toBeUndefined();
    expect(session.undoLabel).toBeNull();
  });

  it('is one step for a paste of many cells', async () => {
    const { session } = await openSession();
    await session.dispatch({
      label: 'a paste',
      source: 'paste',
      sets: [count('a1', 'c-chamber1', 1), count('a2', 'c-chamber1', 2)],
    });
    expect((await session.undo())?.label).toBe('a paste');
    expect(readingOf(session.notebook, day, 'a2', 'c-chamber1')).toBeUndefined();
  });

  it('ends the chance to redo with a new edit', async () => {
    const { session } = await openSession();
    await session.dispatch(typing(count('a1', 'c-chamber1', 1)));
    await session.undo();
    expect(session.redoLabel).toBe('a count');
    await session.dispatch(typing(count('a1', 'c-chamber1', 2)));
    expect(session.redoLabel).toBeNull();
  });
});

describe('session.settled()', () => {
  it('waits for every edit and change of row under way, and not longer', async () => {
    const { session, notices } = await openSession();
    expect(session.isBusy).toBe(false);
    await session.enterRow('a1');
    void session.dispatch(typing(count('a1', 'c-chamber1', 4)));
    void session.enterRow('a2');
    expect(session.isBusy).toBe(true);
    await session.settled();
    expect(session.isBusy).toBe(false);
    expect(notices.length).toBeGreaterThan(0);
    // Leaving the row wrote its zeros: an edit that followed from another one is waited for as well.
    expect(readingOf(session.notebook, day, 'a1', 'c-nematodirus')).toMatchObject({ value: 0 });
  });

  it('is over as well when an edit failed', async () => {
    const { session, engine } = await openSession();
    engine.apply = () => Promise.reject(new Error('the engine broke'));
    const typed = session.dispatch(typing(count('a1', 'c-chamber1', 4)));
    await expect(typed).rejects.toThrow('the engine broke');
    await session.settled();
    expect(session.isBusy).toBe(false);
  });
});

describe('session.enterRow(row)', () => {
  it('fills looked-for egg types with visible zeros when a counted row is left, as one step', async () => {
    const { session, engine } = await openSession();
    await session.enterRow('a1');
    await session.dispatch(typing(count('a1', 'c-chamber1', 4)));
    expect(readingOf(session.notebook, day, 'a1', 'c-nematodirus')).toBeUndefined();
    await session.enterRow('a2');
    expect(engine.heldBack).toEqual(['a1', 'a2']);
    expect(readingOf(session.notebook, day, 'a1', 'c-nematodirus')).toMatchObject({ value: 0 });
    await session.undo();
    expect(readingOf(session.notebook, day, 'a1', 'c-nematodirus')).toBeUndefined();
    expect(readingOf(session.notebook, day, 'a1', 'c-chamber1')).toMatchObject({ value: 4 });
  });

  it('fills nothing in a row without a count, or with a status', async () => {
    const { session } = await openSession();
    await session.enterRow('a1');
    await session.enterRow(null);
    expect(readingOf(session.notebook, day, 'a1', 'c-nematodirus')).toBeUndefined();
    await session.enterRow('a2');
    await session.dispatch(
      typing(count('a2', 'c-chamber1', 4), {
        path: ['readings', day, 'a2', 'c-status'],
        value: { kind: 'text', text: 'spoiled' },
      }),
    );
    await session.enterRow(null);
    expect(readingOf(session.notebook, day, 'a2', 'c-nematodirus')).toBeUndefined();
  });
});

describe('session and its days', () => {
  it('closes a removed day and opens it no more, until undo brings it back', async () => {
    const { session } = await openSession();
    await session.dispatch(removeDay(session.notebook, day));
    expect(session.openDay).toBeNull();
    await session.undo();
    expect(session.openDay).toBe(day);
  });
});

describe('session and its journal', () => {
  it('says saved only once the journal has written', async () => {
    let release: () => void = () => undefined;
    const written: Transaction[] = [];
    const { session } = await openSession({
      append: (transaction) =>
        new Promise((resolve) => {
          written.push(transaction);
          release = resolve;
        }),
      replace: () => Promise.resolve(),
    });
    await session.dispatch(typing(count('a1', 'c-chamber1', 4)));
    expect(written).toHaveLength(1);
    expect(session.saved).toEqual({ state: 'saving' });
    release();
    await Promise.resolve();
    await Promise.resolve();
    expect(session.saved).toEqual({ state: 'saved', at: 5000 });
  });

  it('goes on in memory, saying why, when the journal fails', async () => {
    const { session } = await openSession({
      append: () => Promise.reject(new Error('This browser has no room left.')),
      replace: () => Promise.resolve(),
    });
    await session.dispatch(typing(count('a1', 'c-chamber1', 4)));
    await Promise.resolve();
    await Promise.resolve();
    expect(session.saved).toEqual({
      state: 'memory',
      sentence: 'This browser has no room left.',
    });
    await session.dispatch(typing(count('a1', 'c-chamber2', 5)));
    expect(readingOf(session.notebook, day, 'a1', 'c-chamber2')).toMatchObject({ value: 5 });
  });

  it('tries again to keep what failed, and then says saved', async () => {
    let isFull = true;
    const { session } = await openSession({
      append: () => Promise.reject(new Error('This browser has no room left.')),
      replace: () => Promise.resolve(),
      retry: () => (isFull ? Promise.reject(new Error('Still no room.')) : Promise.resolve()),
    });
    await session.dispatch(typing(count('a1', 'c-chamber1', 4)));
    await Promise.resolve();
    session.saveAgain();
    await new Promise((done) => setTimeout(done));
    expect(session.saved).toEqual({ state: 'memory', sentence: 'Still no room.' });
    isFull = false;
    session.saveAgain();
    await new Promise((done) => setTimeout(done));
    expect(session.saved).toEqual({ state: 'saved', at: 5000 });
  });
});

describe('Clock', () => {
  it('never gives a stamp at or below one it has seen, also with the clock set back', () => {
    let now = 1000;
    const clock = new Clock('bench', () => now);
    expect(clock.next()).toEqual([1000, 0, 'bench']);
    expect(clock.next()).toEqual([1000, 1, 'bench']);
    now = 10;
    expect(clock.next()).toEqual([1000, 2, 'bench']);
    clock.saw([9000, 4, 'yard']);
    expect(clock.next()).toEqual([9000, 5, 'bench']);
  });
});
