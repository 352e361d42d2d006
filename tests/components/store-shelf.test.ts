import { describe, expect, it } from 'vitest';
import { MemoryShelf } from '../../components/memory-shelf.ts';
import { StoreShelf } from '../../components/store-shelf.ts';
import { isFault } from '../../shared/value.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import type { Damage } from '../../src/storage/load.ts';
import type { Store } from '../../src/storage/store.ts';
import type { Claim } from '../../src/storage/tabs.ts';

const damaged: Damage = { place: 'readings › 2026-05-03', sentence: 'Cut off.', raw: '[["a1"' };

/** This tab writes, and no other is open. */
const claim = {
  role: 'writer',
  told: {},
  beforeHandOver: () => undefined,
  release: () => undefined,
} as Partial<Claim> as Claim;

/** A store that keeps one damaged part aside, and a shelf on it whose downloads are watched. */
function shelfOnDamage(download: (name: string, text: string) => void) {
  let aside: readonly Damage[] = [damaged];
  const store = {
    open: async () => ({
      notebook: emptyNotebook('n'),
      writer: 'bench',
      damage: aside,
      journal: { settled: () => Promise.resolve(), notInFile: { counts: 0 } },
    }),
    forgetAside: async () => {
      aside = [];
    },
  };
  const memory = new MemoryShelf(
    () => 1,
    () => 'bench',
  );
  const shelf = new StoreShelf(store as unknown as Store, memory, download);
  const open = async () => {
    const opened = await shelf.open('n', claim);
    if (isFault(opened)) throw new Error(opened.sentence);
    opened.close();
    return opened.notices;
  };
  return { open, store };
}

describe('a damaged part that is kept aside', () => {
  it('is told at each opening until it was downloaded, and not after that', async () => {
    const files: string[] = [];
    const { open } = shelfOnDamage((name, text) => files.push(`${name}: ${text}`));
    expect((await open()).map(({ kind }) => kind)).toEqual(['put aside']);
    const [notice] = await open();
    expect(notice?.sentence).toContain('readings › 2026-05-03');
    await notice?.action?.run();
    expect(files).toHaveLength(1);
    expect(files[0]).toMatch(/^damaged-part\.json: /);
    expect(files[0]).toContain('[[\\"a1\\"');
    expect(await open()).toEqual([]);
  });

  it('stays aside, and is told again, where the download fails', async () => {
    const { open } = shelfOnDamage(() => {
      throw new Error('No room for a file.');
    });
    const [notice] = await open();
    await expect(notice?.action?.run()).rejects.toThrow('No room for a file.');
    expect((await open()).map(({ kind }) => kind)).toEqual(['put aside']);
  });

  it('is told again where it could not be forgotten', async () => {
    const { open, store } = shelfOnDamage(() => undefined);
    store.forgetAside = () => Promise.reject(new Error('The disk is full.'));
    const [notice] = await open();
    await notice?.action?.run();
    expect((await open()).map(({ kind }) => kind)).toEqual(['put aside']);
  });
});
