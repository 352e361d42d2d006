import type { Notebook } from '../shared/notebook.ts';
import { isFault, type Fault } from '../shared/value.ts';
import { damageSentence, damageText, type Store } from '../src/storage/store.ts';
import { downloadText } from './download.ts';
import type { Notice, OpenedNotebook, Shelf, ShelfEntry } from './services.ts';

/**
 * The shelf on this browser's own store. A new notebook that the store refuses to take is held in the
 * page's memory, so that work can go on, and says so when it is opened.
 */
export class StoreShelf implements Shelf {
  constructor(
    private readonly store: Store,
    private readonly memory: Shelf,
  ) {}

  async list(): Promise<readonly ShelfEntry[]> {
    const lines = await this.store.list();
    const kept = lines.map(({ id, title, place, changedAt, removedAt }) => ({
      id,
      title,
      place,
      changedAt: changedAt === 0 ? null : changedAt,
      isDeleted: removedAt !== null,
    }));
    return [...(await this.memory.list()), ...kept];
  }

  async add(notebook: Notebook): Promise<void> {
    await this.store.add(notebook).catch(() => this.memory.add(notebook));
  }

  async read(id: string): Promise<Notebook | Fault> {
    const kept = await this.store.read(id);
    return isFault(kept) ? this.memory.read(id) : kept.notebook;
  }

  async open(id: string): Promise<OpenedNotebook | Fault> {
    const opened = await this.store.open(id);
    if (isFault(opened)) {
      const held = await this.memory.open(id);
      return isFault(held) ? opened : held;
    }
    const { notebook, writer, journal, damage } = opened;
    const aside: Notice = {
      kind: 'put aside',
      sentence: damageSentence(damage),
      action: {
        label: 'Download what is kept aside',
        run: () => downloadText('damaged-part.json', damageText(damage), 'application/json'),
      },
    };
    return {
      notebook,
      writer,
      journal,
      notices: damage.length === 0 ? [] : [aside],
      savedToFile: (now) => journal.savedToFile(now),
      close: () => undefined,
    };
  }

  rename(id: string, title: string): Promise<Fault | null> {
    return this.store.rename(id, title);
  }

  copy(id: string, title: string): Promise<string | Fault> {
    return this.store.copy(id, title);
  }

  remove(id: string): Promise<void> {
    return this.store.remove(id);
  }

  restore(id: string): Promise<void> {
    return this.store.restore(id);
  }

  purge(id: string): Promise<void> {
    return this.store.purge(id);
  }
}
