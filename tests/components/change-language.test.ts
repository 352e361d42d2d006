import { describe, expect, it } from 'vitest';
import { changeLanguage, type LanguageWorld } from '../../components/change-language.ts';
import { chosenLanguage } from '../../components/language.ts';
import { MemoryShelf } from '../../components/memory-shelf.ts';
import type { Shelf } from '../../components/services.ts';
import { SessionKeeper } from '../../components/session-keeper.ts';
import { isFault } from '../../shared/value.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import type { Journal } from '../../src/session/session.ts';
import { stillEngine } from '../session/still-engine.ts';

function world(settled: () => Promise<boolean>) {
  const held = new Map<string, string>();
  const done: string[] = [];
  const drawer = {
    getItem: (key: string) => held.get(key) ?? null,
    setItem: (key: string, value: string) => void held.set(key, value),
    removeItem: (key: string) => void held.delete(key),
  };
  const given: LanguageWorld = {
    drawer: () => drawer,
    settled,
    reload: () => void done.push('loaded'),
  };
  return { given, done, chosen: () => chosenLanguage(() => drawer) };
}

/** A notebook open for writing on a journal of the test's own. */
async function opened(append: Journal['append']) {
  const memory = new MemoryShelf(
    () => 1,
    () => 'bench',
  );
  await memory.add(emptyNotebook('n'));
  const shelf = {
    open: async (id: string) => {
      const taken = await memory.open(id);
      return isFault(taken) ? taken : { ...taken, journal: { append, replace: append } };
    },
  } as unknown as Shelf;
  const keeper = new SessionKeeper({
    shelf,
    now: () => 1,
    createEngine: () => Promise.resolve(stillEngine()),
    tell: () => undefined,
  });
  const session = await keeper.open('n');
  if (isFault(session)) throw new Error(session.sentence);
  const type = (): Promise<unknown> =>
    session.dispatch({
      label: 'the title',
      source: 'typed',
      sets: [{ path: ['about', 'notebook', 'title'], value: 'Far Fell' }],
    });
  return { keeper, session, type };
}

describe('changing the language', () => {
  it('keeps the choice and loads the page anew', async () => {
    const { given, done, chosen } = world(() => Promise.resolve(true));
    expect(await changeLanguage('es', given)).toBe('loading');
    expect(chosen()).toBe('es');
    expect(await changeLanguage(null, given)).toBe('loading');
    expect(chosen()).toBeNull();
    expect(done).toEqual(['loaded', 'loaded']);
  });

  it('loads nothing where the choice cannot be kept: the page would come back as it was', async () => {
    const { given, done } = world(() => Promise.resolve(true));
    const refused = (): never => {
      throw new DOMException('Access is denied for this document.', 'SecurityError');
    };
    expect(await changeLanguage('es', { ...given, drawer: refused })).toBe('not kept');
    expect(done).toEqual([]);
  });

  it('waits with loading until what was typed is on disk', async () => {
    const written: (() => void)[] = [];
    const { keeper, type } = await opened(() => new Promise((done) => written.push(done)));
    const { given, done } = world(() => keeper.settled());
    await type();
    const changing = changeLanguage('es', given);
    await new Promise((turn) => setTimeout(turn));
    expect(written).toHaveLength(1);
    expect(done).toEqual([]);
    for (const finish of written) finish();
    expect(await changing).toBe('loading');
    expect(done).toEqual(['loaded']);
  });

  it('loads nothing while something typed is in the page alone, and keeps the choice', async () => {
    const { keeper, session, type } = await opened(() => Promise.reject(new Error('Disk full.')));
    const { given, done, chosen } = world(() => keeper.settled());
    await type();
    expect(await changeLanguage('es', given)).toBe('waiting');
    expect(done).toEqual([]);
    expect(chosen()).toBe('es');
    keeper.end(session);
    expect(await keeper.settled()).toBe(true);
  });
});
