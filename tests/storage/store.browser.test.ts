import { expect } from '@open-wc/testing';
import { isFault } from '../../shared/value.ts';
import { readingOf } from '../../src/notebook/read.ts';
import { openStore } from '../../src/storage/store.ts';
import { counted, day, freshStore, herd, raw, rawKeys, sound, Typist } from './kept-notebook.ts';

describe('a store', () => {
  it('gives back after reopening what was typed, edit by edit', async () => {
    const { store, name } = await freshStore();
    await store.add(herd('n', 3));
    const typist = new Typist(sound(await store.open('n')));
    await typist.count('a1', 3);
    await typist.count('a2', 5);
    await typist.count('a1', 4);
    const again = sound(await openStore({ name }));
    const { notebook, damage } = sound(await again.read('n'));
    expect(damage).to.deep.equal([]);
    expect(notebook).to.deep.equal(typist.notebook);
    expect(await rawKeys(name, 'edit')).to.deep.equal(['edit n 1', 'edit n 2', 'edit n 3']);
  });

  it('has an edit on disk when append resolves, as another connection sees', async () => {
    const { store, name } = await freshStore();
    await store.add(herd('n', 3));
    const typist = new Typist(sound(await store.open('n')));
    const { kept } = typist.edit({ path: ['readings', day, 'a1', 'c1'], value: counted(7) });
    await kept;
    const text = await raw<unknown>(name, 'readonly', (s) => s.get(['edit', 'n', 1]));
    expect(text).to.contain('"value":7');
  });

  it('asks for strict durability with every write', async () => {
    const asked: (string | undefined)[] = [];
    const transaction = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (names, mode, options) {
      if (mode === 'readwrite') asked.push(options?.durability);
      return transaction.call(this, names, mode, options);
    };
    try {
      const { store } = await freshStore();
      await store.add(herd('n', 1));
      await new Typist(sound(await store.open('n'))).count('a1', 3);
    } finally {
      IDBDatabase.prototype.transaction = transaction;
    }
    expect(asked.length).to.be.greaterThan(2);
    expect(new Set(asked)).to.deep.equal(new Set(['strict']));
  });

  it('folds the journal into the snapshot, leaving other days and tables alone', async () => {
    const { store, name } = await freshStore();
    const notebook = herd('n', 3, [day, '2026-06-07']);
    await store.add(notebook);
    const first = sound(await store.open('n'));
    const typist = new Typist(first);
    await typist.count('a1', 3, '2026-06-07');
    await first.journal.compact();
    await raw(name, 'readwrite', (s) => s.put('"untouched"', ['table', 'n', 'animals', 0]));
    await raw(name, 'readwrite', (s) => s.put('"untouched"', ['day', 'n', '2026-06-07', 0]));
    await typist.count('a2', 5);
    await first.journal.compact();
    expect(await rawKeys(name, 'edit')).to.deep.equal([]);
    const pieces = ['table', 'day'].map((kind) =>
      raw<unknown>(name, 'readonly', (s) =>
        s.get(kind === 'table' ? ['table', 'n', 'animals', 0] : ['day', 'n', '2026-06-07', 0]),
      ),
    );
    expect(await Promise.all(pieces)).to.deep.equal(['"untouched"', '"untouched"']);
    expect(await raw<unknown>(name, 'readonly', (s) => s.get(['day', 'n', day, 0]))).to.contain(
      '"value":5',
    );
  });

  it('gives the same notebook whenever the journal is folded while counts are typed', async () => {
    for (const foldAfter of [1, 2, 5]) {
      const { store } = await freshStore({ compactAfter: foldAfter, whenIdle: async () => {} });
      await store.add(herd('n', 12));
      const opened = sound(await store.open('n'));
      const typist = new Typist(opened);
      const typed = [];
      for (let i = 0; i < 40; i += 1) {
        typed.push(typist.count(`a${1 + (i % 12)}`, i));
        if (i % 7 === 0) await Promise.all(typed);
      }
      typist.edit({ path: ['animals', 'a3', 'name'], value: 'Willow' });
      await opened.journal.settled();
      await opened.journal.compact();
      await typist.count('a1', 99);
      const { notebook } = sound(await store.read('n'));
      expect(notebook).to.deep.equal(typist.notebook);
    }
  });

  it('goes on numbering after folding and reopening, and never over an edit that is there', async () => {
    const { store, name } = await freshStore();
    await store.add(herd('n', 3));
    const first = sound(await store.open('n'));
    const typist = new Typist(first);
    await typist.count('a1', 3);
    await first.journal.compact();
    const second = sound(await store.open('n'));
    await new Typist(second).count('a2', 4);
    expect(await rawKeys(name, 'edit')).to.deep.equal(['edit n 2']);
    let sentence = '';
    await typist.count('a3', 9).catch((error: Error) => (sentence = error.message));
    expect(sentence).to.contain('Another tab is writing');
    const { notebook } = sound(await store.read('n'));
    expect(readingOf(notebook, day, 'a2', 'c1')).to.deep.equal(counted(4));
  });

  it('keeps several notebooks apart, lists them by last use, and counts what they hold', async () => {
    let ms = 0;
    const { store } = await freshStore({ now: () => (ms += 1000) });
    await store.add(herd('n', 3));
    await store.add(herd('n2', 5));
    const typist = new Typist(sound(await store.open('n')));
    await typist.count('a1', 3);
    await typist.count('a2', 0);
    await typist.edit({ path: ['about', 'notebook', 'place'], value: 'Nettlewick' }).kept;
    const [first, second] = await store.list();
    expect(first).to.include({ id: 'n', title: 'Hill flock', place: 'Nettlewick', counts: 2 });
    expect(first).to.include({ animals: 3, days: 1, countsNotInFile: 2 });
    expect(second).to.include({ id: 'n2', animals: 5, counts: 0, removedAt: null });
  });

  it('counts what is not yet in a file, each count once, also after reopening', async () => {
    const { store } = await freshStore();
    await store.add(herd('n', 3));
    const first = sound(await store.open('n'));
    const typist = new Typist(first);
    await typist.count('a1', 3);
    await typist.count('a1', 4);
    await typist.count('a2', 5);
    expect(first.journal.notInFile.counts).to.equal(2);
    const inFile = typist.notebook;
    await typist.count('a3', 6);
    await first.journal.savedToFile(inFile);
    expect(first.journal.notInFile.counts).to.equal(1);
    await typist.count('a1', 8);
    expect(sound(await store.open('n')).journal.notInFile.counts).to.equal(2);
  });

  it('renames, copies, deletes, takes a deletion back, and purges', async () => {
    const { store, name } = await freshStore();
    await store.add(herd('n', 3));
    await new Typist(sound(await store.open('n'))).count('a1', 3);
    expect(await store.rename('n', 'Low flock')).to.equal(null);
    const copy = sound(await store.copy('n', 'For the vet'));
    const titles = async (): Promise<string[]> =>
      (await store.list()).filter((l) => l.removedAt === null).map((line) => line.title);
    expect((await titles()).sort()).to.deep.equal(['For the vet', 'Low flock']);
    expect(readingOf(sound(await store.read(copy)).notebook, day, 'a1', 'c1')).to.deep.equal(
      counted(3),
    );
    await store.remove('n');
    expect(await titles()).to.deep.equal(['For the vet']);
    await store.restore('n');
    expect(await titles()).to.have.length(2);
    await store.purge('n');
    expect(await rawKeys(name)).to.satisfy((keys: string[]) =>
      keys.every((key) => key.includes(copy)),
    );
    expect(await store.read('n')).to.include({ fault: 'no-notebook' });
  });

  it('puts a whole notebook in place of what was typed since, to undo a merge', async () => {
    const { store, name } = await freshStore();
    await store.add(herd('n', 3));
    const opened = sound(await store.open('n'));
    const typist = new Typist(opened);
    await typist.count('a1', 3);
    const former = structuredClone(typist.notebook);
    await typist.count('a1', 4);
    await typist.count('a2', 5, '2026-06-07');
    await opened.journal.compact();
    await typist.count('a3', 6);
    await opened.journal.replace(former);
    expect(sound(await store.read('n')).notebook).to.deep.equal(former);
    expect(await rawKeys(name, 'edit')).to.deep.equal([]);
    expect((await store.list())[0]).to.include({ counts: 1 });
    await new Typist(sound(await store.open('n'))).count('a3', 1);
    expect(sound(await store.read('n')).damage).to.deep.equal([]);
  });

  it('loses no count typed while a whole notebook is put in place', async () => {
    const pauses: (() => void)[] = [];
    const pause = (): Promise<void> => new Promise((resolve) => pauses.push(resolve));
    const { store } = await freshStore({ pause });
    const wait = setInterval(() => pauses.splice(0).forEach((go) => go()), 1);
    await store.add(herd('n', 1500));
    const opened = sound(await store.open('n'));
    clearInterval(wait);
    const typist = new Typist(opened);
    await typist.count('a1', 3);
    const replaced = opened.journal.replace(typist.notebook);
    await typist.count('a2', 4);
    const again = setInterval(() => pauses.splice(0).forEach((go) => go()), 1);
    await replaced;
    expect(sound(await store.read('n')).notebook).to.deep.equal(typist.notebook);
    clearInterval(again);
  });

  it('tries again to put a notebook in place with the next edit, if it failed', async () => {
    const { store } = await freshStore();
    await store.add(herd('n', 3));
    const opened = sound(await store.open('n'));
    const typist = new Typist(opened);
    await typist.count('a1', 3);
    const former = structuredClone(typist.notebook);
    await typist.count('a1', 4);
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function () {
      throw new DOMException('full', 'QuotaExceededError');
    };
    const failed = await opened.journal.replace(former).then(
      () => '',
      (error: Error) => error.message,
    );
    IDBObjectStore.prototype.put = put;
    expect(failed).to.contain('no room left');
    typist.notebook = former;
    await typist.count('a2', 7);
    expect(sound(await store.read('n')).notebook).to.deep.equal(typist.notebook);
  });

  it('gives each notebook a writer of its own, kept from opening to opening', async () => {
    const { store } = await freshStore();
    await store.add(herd('n', 1));
    await store.add(herd('n2', 1));
    const writer = sound(await store.open('n')).writer;
    expect(sound(await store.open('n')).writer).to.equal(writer);
    expect(sound(await store.open('n2')).writer).not.to.equal(writer);
    await store.add(herd('n', 1));
    expect(sound(await store.open('n')).writer).not.to.equal(writer);
  });

  it('asks for a promise to keep things once, and only after the first edit', async () => {
    let asked = 0;
    const storage = {
      persist: async () => {
        asked += 1;
        return true;
      },
    } as Partial<StorageManager> as StorageManager;
    const { store } = await freshStore({ storage });
    await store.add(herd('n', 2));
    const typist = new Typist(sound(await store.open('n')));
    expect(asked).to.equal(0);
    expect(store.persistence.answer).to.equal('not asked');
    await typist.count('a1', 3);
    await typist.count('a2', 3);
    await store.persistence.ask();
    expect(asked).to.equal(1);
    expect(store.persistence.answer).to.equal('promised');
  });

  it('keeps a table that only a later program knows, and names like __proto__ in words', async () => {
    const { store } = await freshStore();
    const notebook = {
      ...herd('n', 1),
      weather: { [day]: { rain: [[4, [1, 0, 'd']]] } },
      remark: 'as it is',
    };
    await store.add(notebook);
    const typist = new Typist(sound(await store.open('n')));
    await typist.edit({
      path: ['blocks', 'b', 'choices'],
      value: JSON.parse('{"__proto__":"x"}') as never,
    }).kept;
    const read = sound(await store.read('n')).notebook;
    expect(read).to.deep.include({ weather: notebook.weather, remark: 'as it is' });
    expect(JSON.stringify(read.blocks)).to.contain('"__proto__":"x"');
  });

  it('reads a large day in pieces, all of them', async () => {
    const { store, name } = await freshStore();
    await store.add(herd('n', 2500));
    const opened = sound(await store.open('n'));
    const typist = new Typist(opened);
    const sets = Array.from({ length: 2500 }, (_, i) => ({
      path: ['readings', day, `a${i + 1}`, 'c1'] as const,
      value: counted(i),
    }));
    await typist.edit(...sets).kept;
    await opened.journal.compact();
    expect(await rawKeys(name, 'day')).to.have.length(3);
    expect(await rawKeys(name, 'table n animals')).to.have.length(3);
    expect(sound(await store.read('n')).notebook).to.deep.equal(typist.notebook);
  });
});

describe('openStore(), where the browser does not keep anything', () => {
  const failing = (open: () => IDBOpenDBRequest): IDBFactory =>
    ({ open }) as Partial<IDBFactory> as IDBFactory;

  it('gives up with a sentence when the store never answers', async () => {
    const factory = failing(() => new EventTarget() as IDBOpenDBRequest);
    const before = performance.now();
    const result = await openStore({ factory, giveUpAfter: 50 });
    expect(result).to.include({ fault: 'no-answer' });
    expect(performance.now() - before).to.be.greaterThan(45);
  });

  it('gives up after three seconds unless told otherwise', async () => {
    const waited: (number | undefined)[] = [];
    const timer = window.setTimeout;
    window.setTimeout = ((run: () => void, ms?: number) => {
      waited.push(ms);
      return timer(run, 1);
    }) as typeof window.setTimeout;
    try {
      const factory = failing(() => new EventTarget() as IDBOpenDBRequest);
      expect(isFault(await openStore({ factory }))).to.equal(true);
    } finally {
      window.setTimeout = timer;
    }
    expect(waited).to.deep.equal([3000]);
  });

  it('says so when asking for a store is forbidden', async () => {
    const factory = failing(() => {
      throw new DOMException('no', 'SecurityError');
    });
    expect(await openStore({ factory })).to.include({ fault: 'store-refused' });
  });

  it('says so when a newer program kept the notebooks', async () => {
    const name = `newer ${Math.random()}`;
    await new Promise<void>((resolve) => {
      const opening = indexedDB.open(name, 7);
      opening.onsuccess = () => {
        opening.result.close();
        resolve();
      };
    });
    expect(await openStore({ name })).to.include({ fault: 'newer-store' });
  });
});

describe('append(), where keeping fails', () => {
  /** Makes adding fail as it does on a full disk, until told to stop. */
  function fullDisk(): () => void {
    const add = IDBObjectStore.prototype.add;
    IDBObjectStore.prototype.add = function () {
      throw new DOMException('full', 'QuotaExceededError');
    };
    return () => (IDBObjectStore.prototype.add = add);
  }

  it('rejects with a sentence, keeps nothing of the edit, and catches up once there is room', async () => {
    const { store, name } = await freshStore();
    await store.add(herd('n', 3));
    const opened = sound(await store.open('n'));
    const typist = new Typist(opened);
    await typist.count('a1', 3);
    const freeUp = fullDisk();
    const sentences: string[] = [];
    for (const row of ['a2', 'a3'])
      await typist.count(row, 5).catch((error: Error) => sentences.push(error.message));
    freeUp();
    expect(sentences).to.have.length(2);
    expect(sentences[0]).to.contain('no room left');
    expect(await rawKeys(name, 'edit')).to.deep.equal(['edit n 1']);
    expect((await store.list())[0]).to.include({ counts: 1 });
    await opened.journal.retry();
    const { notebook, damage } = sound(await store.read('n'));
    expect(notebook).to.deep.equal(typist.notebook);
    expect(damage).to.deep.equal([]);
  });

  it('opens the connection again when the browser closed it', async () => {
    const { store } = await freshStore();
    await store.add(herd('n', 3));
    const typist = new Typist(sound(await store.open('n')));
    const databases: IDBDatabase[] = [];
    const transaction = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (...all) {
      databases.push(this);
      return transaction.apply(this, all);
    };
    await typist.count('a1', 3);
    IDBDatabase.prototype.transaction = transaction;
    expect(databases).to.have.length(1);
    databases[0]?.close();
    databases[0]?.dispatchEvent(new Event('close'));
    await Promise.all([typist.count('a2', 4), typist.count('a3', 5)]);
    expect(sound(await store.read('n')).notebook).to.deep.equal(typist.notebook);
  });

  it('says to reload when a newer page takes over the store', async () => {
    const { store, name } = await freshStore();
    await store.add(herd('n', 3));
    const typist = new Typist(sound(await store.open('n')));
    await new Promise<void>((resolve) => {
      const opening = indexedDB.open(name, 2);
      opening.onsuccess = () => {
        opening.result.close();
        resolve();
      };
    });
    let sentence = '';
    await typist.count('a1', 3).catch((error: Error) => (sentence = error.message));
    expect(sentence).to.contain('newer Sampling Daybook is open');
  });
});
