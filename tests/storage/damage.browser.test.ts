import { expect } from '@open-wc/testing';
import { isFault } from '../../shared/value.ts';
import { mergeValues } from '../../src/notebook/merge-values.ts';
import { animalsOf, columnsOf, readingOf } from '../../src/notebook/read.ts';
import { loadNotebook } from '../../src/storage/load.ts';
import { damageSentence, damageText, type Store } from '../../src/storage/store.ts';
import { openStrictStore } from '../../src/storage/strict-store.ts';
import { counted, day, freshStore, herd, raw, rawKeys, sound, Typist } from './kept-notebook.ts';

/** Three animals; two counts in the snapshot, three edits in the journal. */
async function someCounts(): Promise<{ store: Store; name: string; typist: Typist }> {
  const { store, name } = await freshStore();
  await store.add(herd('n', 3));
  const opened = sound(await store.open('n'));
  const typist = new Typist(opened);
  await typist.count('a1', 1);
  await typist.count('a2', 2);
  await opened.journal.compact();
  await typist.count('a3', 3);
  await typist.count('a1', 11);
  await typist.count('a2', 12);
  return { store, name, typist };
}

const put = (name: string, value: unknown, key: IDBValidKey): Promise<unknown> =>
  raw(name, 'readwrite', (store) => store.put(value, key));

async function counts(store: Store): Promise<(string | undefined)[]> {
  const { notebook } = sound(await store.read('n'));
  return ['a1', 'a2', 'a3'].map((row) => readingOf(notebook, day, row, 'c1')?.text);
}

describe('a damaged store', () => {
  it('opens what the edits hold where a day of the snapshot cannot be read', async () => {
    const { store, name } = await someCounts();
    await put(name, '[["a1",{"c1":[[{"ki', ['day', 'n', day, 0]);
    const { damage } = sound(await store.open('n'));
    expect(damage).to.have.length(1);
    expect(damage[0]).to.include({ place: `readings › ${day}`, raw: '[["a1",{"c1":[[{"ki' });
    expect(await counts(store)).to.deep.equal(['11', '12', '3']);
    expect(damageSentence(damage)).to.contain(`readings › ${day}. Everything else is here`);
    expect(damageText(damage)).to.contain('{\\"ki');
  });

  it('opens every cell but the damaged one', async () => {
    const { store, name } = await someCounts();
    const text = String(
      await raw<unknown>(name, 'readonly', (s) => s.get(['table', 'n', 'animals', 0])),
    );
    await put(name, text.replace('"K-2"', '{}'), ['table', 'n', 'animals', 0]);
    const { damage, notebook } = sound(await store.open('n'));
    expect(damage.map(({ place, raw: held }) => [place, held])).to.deep.equal([
      ['animals › a2 › tag', {}],
    ]);
    expect(animalsOf(notebook).map(({ tag }) => tag)).to.include.members(['K-1', 'K-3']);
  });

  it('shows counts whose animals were lost, each under a stand-in', async () => {
    const { store, name } = await someCounts();
    await put(name, 7, ['table', 'n', 'animals', 0]);
    const { notebook } = sound(await store.open('n'));
    expect(
      animalsOf(notebook)
        .map(({ tag }) => tag)
        .sort(),
    ).to.deep.equal(['lost tag 1', 'lost tag 2', 'lost tag 3']);
    const whole = mergeValues(notebook, herd('n', 3)).notebook;
    expect(
      animalsOf(whole)
        .map(({ tag }) => tag)
        .sort(),
    ).to.deep.equal(['K-1', 'K-2', 'K-3']);
  });

  it('opens all but a damaged edit, and does not take for superseded what it held', async () => {
    const { store, name, typist } = await someCounts();
    const backup = typist.notebook;
    await put(name, '{"label":"a cou', ['edit', 'n', 4]);
    const opened = sound(await store.open('n'));
    expect(opened.damage.map(({ place }) => place)).to.deep.equal(['edit › 4']);
    expect(await counts(store)).to.deep.equal(['1', '12', '3']);
    const merged = mergeValues(opened.notebook, backup).notebook;
    expect(readingOf(merged, day, 'a1', 'c1')?.text).to.equal('11');
    expect(merged.readings[day]?.['a1']?.['c1']).to.have.length(1);
    expect(merged.readings[day]?.['a2']?.['c1']).to.have.length(1);
  });

  it('opens all but the damaged part of an edit', async () => {
    const { store, name, typist } = await someCounts();
    await typist.edit(
      { path: ['readings', day, 'a1', 'c1'], value: counted(21) },
      { path: ['readings', day, 'a2', 'c1'], value: counted(22) },
    ).kept;
    const text = String(await raw<unknown>(name, 'readonly', (s) => s.get(['edit', 'n', 6])));
    await put(name, text.replace('"text":"21"', '"text":21'), ['edit', 'n', 6]);
    expect(sound(await store.open('n')).damage).to.have.length(1);
    expect(await counts(store)).to.deep.equal(['11', '22', '3']);
  });

  it('says when an edit is missing, in the middle or at the end', async () => {
    const { store, name } = await someCounts();
    await raw(name, 'readwrite', (s) => s.delete(['edit', 'n', 4]));
    expect(sound(await store.read('n')).damage.map(({ place }) => place)).to.deep.equal([
      'edit › 4',
    ]);
    await raw(name, 'readwrite', (s) => s.delete(['edit', 'n', 5]));
    const { damage } = sound(await store.read('n'));
    expect(damage[0]?.sentence).to.contain('edits 4 to 5');
  });

  it('opens without its snapshot mark, and without its line in the list', async () => {
    const { store, name, typist } = await someCounts();
    await put(name, '{"version":', ['snapshot', 'n']);
    await put(name, 'nothing', ['head', 'n']);
    expect((await store.list())[0]?.title).to.contain('cannot be read (n)');
    const { notebook, damage } = sound(await store.open('n'));
    expect(damage.map(({ place }) => place)).to.deep.equal(['snapshot']);
    expect(notebook.readings).to.deep.equal(typist.notebook.readings);
    expect((await store.list())[0]?.title).to.equal('Hill flock');
  });

  it('keeps everything typed where only the line in the list is damaged and the journal is folded', async () => {
    const { store, name, typist } = await someCounts();
    await put(name, 'nothing', ['head', 'n']);
    const opened = sound(await store.open('n'));
    await opened.journal.compact();
    expect(await rawKeys(name, 'edit')).to.deep.equal([]);
    expect(sound(await store.read('n')).notebook).to.deep.equal(typist.notebook);
  });

  it('keeps the damaged parts aside until they are no longer wanted, and goes on under a new writer', async () => {
    const { store, name } = await someCounts();
    const before = sound(await store.open('n')).writer;
    await put(name, '{"label":"a cou', ['edit', 'n', 4]);
    const opened = sound(await store.open('n'));
    expect(opened.writer).not.to.equal(before);
    await new Typist(opened).count('a1', 31);
    await opened.journal.compact();
    const again = sound(await store.open('n'));
    expect(again.damage.map(({ raw: held }) => held)).to.deep.equal(['{"label":"a cou']);
    expect(again.writer).to.equal(opened.writer);
    await store.forgetAside('n');
    expect(sound(await store.open('n')).damage).to.deep.equal([]);
    expect(await counts(store)).to.deep.equal(['31', '12', '3']);
  });

  it('writes nothing while it is only read', async () => {
    const { store, name } = await someCounts();
    await put(name, '{"label":"a cou', ['edit', 'n', 4]);
    const before = await rawKeys(name);
    expect(sound(await store.read('n')).damage).to.have.length(1);
    expect(await rawKeys(name)).to.deep.equal(before);
  });

  it('opens a notebook whose columns are lost, with its readings still in it', async () => {
    const { store, name, typist } = await someCounts();
    await put(name, null, ['table', 'n', 'columns', 0]);
    const { notebook } = sound(await store.open('n'));
    expect(columnsOf(notebook)).to.deep.equal([]);
    expect(notebook.readings).to.deep.equal(typist.notebook.readings);
  });

  it('does not take an odd date of its own for damage', async () => {
    const { store } = await freshStore();
    await store.add(herd('n', 1));
    const typist = new Typist(sound(await store.open('n')));
    await typist.edit({ path: ['animals', 'a1', 'born'], value: 'spring' }).kept;
    expect(sound(await store.open('n')).damage).to.deep.equal([]);
  });
});

describe('a notebook of another version in the store', () => {
  it('is not touched where it is newer, and the sentence says to update', async () => {
    const { store, name } = await someCounts();
    const mark = JSON.parse(
      String(await raw<unknown>(name, 'readonly', (s) => s.get(['snapshot', 'n']))),
    ) as object;
    await put(name, JSON.stringify({ ...mark, version: 2 }), ['snapshot', 'n']);
    const result = await store.open('n');
    expect(result).to.include({ fault: 'newer-version' });
    let refused = '';
    await store.add(herd('n', 1)).catch((error: Error) => (refused = error.message));
    expect(refused).to.contain('newer Sampling Daybook');
    expect(await rawKeys(name, 'edit')).to.have.length(3);
  });

  it('is brought to the present one, its journal included, where it is older', async () => {
    const { name } = await someCounts();
    const use = await openStrictStore({ name });
    if (isFault(use)) return expect.fail(use.sentence);
    const asked: unknown[] = [];
    const loaded = await loadNotebook(use, 'n', async () => {}, {
      version: 2,
      salvage: (json) => {
        asked.push((json as { version: number }).version);
        const notebook = { ...(json as ReturnType<typeof herd>), remark: 'brought along' };
        return { notebook, problems: [] };
      },
    });
    const { notebook, isOld } = sound(loaded);
    expect(asked).to.deep.equal([1]);
    expect(isOld).to.equal(true);
    expect(notebook).to.include({ remark: 'brought along' });
    expect(readingOf(notebook, day, 'a1', 'c1')?.text).to.equal('11');
  });
});
