import { expect } from '@open-wc/testing';
import { writeCells } from '../../src/notebook/apply-edit.ts';
import { claimNotebook, type Claim, type Role, type TabOptions } from '../../src/storage/tabs.ts';
import { day, counted, freshStore, herd, sound, Typist } from './kept-notebook.ts';

let notebooks = 0;
const claims: Claim[] = [];

/** Claims as from another tab: locks and channels do not know that it is the same page. */
async function claim(id: string, options: TabOptions = {}): Promise<Claim> {
  const made = await claimNotebook(id, { patience: 400, ...options });
  claims.push(made);
  return made;
}

function freshId(): string {
  notebooks += 1;
  return `n${notebooks} ${Math.random()}`;
}

async function until(holds: () => boolean): Promise<void> {
  for (let i = 0; i < 300 && !holds(); i += 1) await pause(10);
  expect(holds()).to.equal(true);
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

afterEach(() => {
  for (const made of claims.splice(0)) made.release();
});

describe('claimNotebook(id)', () => {
  it('makes the first tab the writer and every other one a follower', async () => {
    const id = freshId();
    const [first, second, third] = [await claim(id), await claim(id), await claim(id)];
    expect([first.role, second.role, third.role]).to.deep.equal(['writer', 'follower', 'follower']);
    expect((await claim(freshId())).role).to.equal('writer');
  });

  it('never makes two writers of tabs that open within a moment', async () => {
    const id = freshId();
    const made = await Promise.all([claim(id), claim(id), claim(id)]);
    expect(made.filter(({ role }) => role === 'writer')).to.have.length(1);
  });

  it('lets a follower take the place of a writer that is closed', async () => {
    const id = freshId();
    const [first, second] = [await claim(id), await claim(id)];
    const heard: Role[] = [];
    second.onRole((role) => heard.push(role));
    first.release();
    await until(() => second.role === 'writer');
    expect(heard).to.deep.equal(['writer']);
  });
});

describe('takeOver()', () => {
  it('makes the asker the writer, after what was under way has been finished', async () => {
    const id = freshId();
    const [first, second, third] = [await claim(id), await claim(id), await claim(id)];
    const order: string[] = [];
    first.beforeHandOver(async () => {
      await pause(50);
      order.push('finished');
    });
    first.onRole((role) => order.push(`first ${role}`));
    third.onRole((role) => order.push(`third ${role}`));
    await third.takeOver();
    expect(order).to.deep.equal(['first follower', 'finished', 'third writer']);
    expect([first.role, second.role]).to.deep.equal(['follower', 'follower']);
    await first.takeOver();
    expect([first.role, third.role]).to.deep.equal(['writer', 'follower']);
  });

  it('takes the notebook from a writer that does not answer', async () => {
    const id = freshId();
    const [first, second] = [await claim(id), await claim(id)];
    first.beforeHandOver(() => new Promise(() => {}));
    await second.takeOver();
    await until(() => first.role === 'follower');
    expect(second.role).to.equal('writer');
    second.release();
    await until(() => first.role === 'writer');
  });
});

describe('a follower', () => {
  it('holds what the writer has kept, edit by edit, and takes over without losing one', async () => {
    const { store } = await freshStore();
    const id = freshId();
    await store.add(herd(id, 5));
    const [first, second] = [await claim(id), await claim(id)];
    const opened = sound(await store.open(id, first.told));
    first.beforeHandOver(() => opened.journal.settled());
    const typist = new Typist(opened);
    await typist.count('a1', 3);
    let { notebook } = sound(await store.read(id));
    second.onChange(({ changes, seen }) => {
      const stamps = Object.entries(seen).map(([d, [ms, n]]) => [ms, n, d] as const);
      notebook = writeCells(notebook, changes, stamps);
    });
    await typist.count('a2', 4);
    await typist.count('a1', 5);
    await until(() => notebook.readings[day]?.['a1']?.['c1']?.[0]?.[1][0] === 2003);
    expect(notebook).to.deep.equal(typist.notebook);

    const last = typist.count('a3', 6);
    await second.takeOver();
    await last;
    const taken = sound(await store.open(id, second.told));
    expect(taken.notebook).to.deep.equal(typist.notebook);
    await new Typist(taken).count('a4', 7);
    expect(sound(await store.read(id)).damage).to.deep.equal([]);
  });

  it('gets what was kept between its claim and its first look', async () => {
    const id = freshId();
    const [first, second] = [await claim(id), await claim(id)];
    const { store } = await freshStore();
    await store.add(herd(id, 2));
    const typist = new Typist(sound(await store.open(id, first.told)));
    await typist.count('a1', 3);
    await pause(50);
    const heard: string[] = [];
    second.onChange(({ label }) => heard.push(label));
    expect(heard).to.deep.equal(['a count']);
  });

  it('hears that it lost track where an edit passed it by, and where all was replaced', async () => {
    const id = freshId();
    const [first, second] = [await claim(id), await claim(id)];
    const transaction = { label: 'x', source: 'typed', stamp: [1, 0, 'd'], changes: [] } as const;
    const notebook = herd(id, 1);
    let lost = 0;
    second.onLostTrack(() => (lost += 1));
    second.onChange(() => undefined);
    first.told.onKept?.(transaction, notebook, 7);
    first.told.onKept?.(transaction, notebook, 8);
    await pause(30);
    expect(lost).to.equal(0);
    first.told.onKept?.(transaction, notebook, 10);
    await until(() => lost === 1);
    first.told.onReplaced?.();
    await until(() => lost === 2);
  });

  it('does not hear of other notebooks', async () => {
    const id = freshId();
    const [, second, other] = [await claim(id), await claim(id), await claim(freshId())];
    let heard = 0;
    second.onChange(() => (heard += 1));
    const transaction = { label: 'x', source: 'typed', stamp: [1, 0, 'd'], changes: [] } as const;
    other.told.onKept?.(transaction, herd('n', 1), 1);
    await pause(50);
    expect(heard).to.equal(0);
  });
});

describe('at a plain address, where there are no locks', () => {
  /** As a page that has no lock manager. */
  function withoutLocks(): () => void {
    Object.defineProperty(navigator, 'locks', { value: undefined, configurable: true });
    return () => Reflect.deleteProperty(navigator, 'locks');
  }

  it('tabs agree by asking each other, also when they open within a moment', async () => {
    const restore = withoutLocks();
    try {
      const id = freshId();
      const both = await Promise.all([claim(id), claim(id)]);
      expect(both.map(({ role }) => role).sort()).to.deep.equal(['follower', 'writer']);
      const third = await claim(id);
      expect(third.role).to.equal('follower');
      await third.takeOver();
      expect(third.role).to.equal('writer');
      await until(() => both.every(({ role }) => role === 'follower'));
    } finally {
      restore();
    }
  });
});

it('a count typed in each of two tabs at one moment: both are kept', async () => {
  const { store } = await freshStore();
  const id = freshId();
  await store.add(herd(id, 2));
  const [first, second] = [await claim(id), await claim(id)];
  const typist = new Typist(sound(await store.open(id, first.told)));
  const typed = typist.count('a1', 3);
  expect(second.role).to.equal('follower');
  await second.takeOver();
  await typed;
  const other = new Typist(sound(await store.open(id, second.told)));
  await other.edit({ path: ['readings', day, 'a2', 'c1'], value: counted(4) }).kept;
  const { notebook } = sound(await store.read(id));
  expect(Object.keys(notebook.readings[day] ?? {})).to.deep.equal(['a1', 'a2']);
});
