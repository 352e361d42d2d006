import type { Notebook } from '../shared/notebook.ts';
import { fault, isFault, type Fault } from '../shared/value.ts';
import type { Damage } from '../src/storage/load.ts';
import { damageSentence, damageText, type Store } from '../src/storage/store.ts';
import { claimNotebook, type Claim } from '../src/storage/tabs.ts';
import { downloadText } from './download.ts';
import type { Notice, OpenedNotebook, Shelf, ShelfEntry } from './services.ts';
import { say } from '../src/text/say.ts';

const openElsewhere = fault(
  'open-elsewhere',
  say('This notebook is open in another tab. Rename it there, under Settings.'),
);

/**
 * The shelf on this browser's own store. A new notebook that the store refuses to take is held in the
 * page's memory, so that work can go on, and says so when it is opened.
 */
export class StoreShelf implements Shelf {
  constructor(
    private readonly store: Store,
    private readonly memory: Shelf,
    private readonly download: typeof downloadText = downloadText,
  ) {}

  async list(): Promise<readonly ShelfEntry[]> {
    const lines = await this.store.list();
    const kept = lines.map(({ id, title, place, changedAt, removedAt, countsNotInFile }) => ({
      id,
      title,
      place,
      changedAt: changedAt === 0 ? null : changedAt,
      isDeleted: removedAt !== null,
      countsNotInFile,
    }));
    return [...(await this.memory.list()), ...kept];
  }

  async add(notebook: Notebook): Promise<void> {
    await this.store.add(notebook).catch(() => this.memory.add(notebook));
  }

  async read(id: string): Promise<Notebook | Fault> {
    const kept = await this.store.read(id);
    if (!isFault(kept)) return kept.notebook;
    const held = await this.memory.read(id);
    return isFault(held) ? kept : held;
  }

  async open(id: string, held?: Claim): Promise<OpenedNotebook | Fault> {
    const claim = held ?? (await claimNotebook(id));
    const opened =
      claim.role === 'writer' ? await this.write(id, claim) : await this.follow(id, claim);
    if (!isFault(opened)) return { ...opened, claim };
    claim.release();
    const inMemory = await this.memory.open(id);
    return isFault(inMemory) ? opened : inMemory;
  }

  private async write(id: string, claim: Claim): Promise<OpenedNotebook | Fault> {
    const opened = await this.store.open(id, claim.told);
    if (isFault(opened)) return opened;
    const { notebook, writer, journal, damage } = opened;
    claim.beforeHandOver(() => journal.settled());
    return {
      notebook,
      writer,
      journal,
      notices: this.asideNotices(damage, () => this.store.forgetAside(id)),
      notInFile: () => journal.notInFile.counts,
      savedToFile: (now) => journal.savedToFile(now),
      close: () => void journal.settled().then(() => claim.release()),
    };
  }

  private async follow(id: string, claim: Claim): Promise<OpenedNotebook | Fault> {
    const kept = await this.store.read(id);
    if (isFault(kept)) return kept;
    const { notebook, writer, damage } = kept;
    return {
      notebook,
      writer,
      notices: this.asideNotices(damage, () => Promise.resolve()),
      savedToFile: async () => undefined,
      close: () => claim.release(),
    };
  }

  /** Only where no other tab has the notebook open: its journal must not be written past it. */
  async rename(id: string, title: string): Promise<Fault | null> {
    const claim = await claimNotebook(id);
    try {
      return claim.role === 'writer' ? await this.store.rename(id, title) : openElsewhere;
    } finally {
      claim.release();
    }
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

  /**
   * What is damaged can be downloaded for as long as the notebook is open. Once it was, it need not be
   * told again at the next opening; where the download fails it is.
   */
  private asideNotices(damage: readonly Damage[], forget: () => Promise<void>): readonly Notice[] {
    if (damage.length === 0) return [];
    const aside: Notice = {
      kind: 'put aside',
      sentence: damageSentence(damage),
      action: {
        label: say('Download what is kept aside'),
        run: async () => {
          this.download('damaged-part.json', damageText(damage), 'application/json');
          // One that cannot be forgotten is told again, which does no harm.
          await forget().catch(() => undefined);
        },
      },
    };
    return [aside];
  }
}
