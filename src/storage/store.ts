import { promisifyRequest, type UseStore } from 'idb-keyval';
import type { Stamp } from '../../shared/cell.ts';
import type { Transaction } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import { applyEdit } from '../notebook/apply-edit.ts';
import { newerVersion } from '../notebook/migrate.ts';
import { aboutOf } from '../notebook/read.ts';
import { headOf, isHead, type Head } from './head.ts';
import { NotebookJournal, type Surroundings, type Told } from './journal.ts';
import { asideKey, headKey, kinds, snapshotKey, under } from './keys.ts';
import { loadNotebook, type Damage, type Loaded } from './load.ts';
import { OwnTemplates } from './own-templates.ts';
import { Persistence } from './persistence.ts';
import { randomId } from './random-id.ts';
import { everything, piecesOf, putPieces, readMark, type Touched } from './snapshot.ts';
import { StorageError } from './storage-fault.ts';
import { openStrictStore, write, type OpenOptions } from './strict-store.ts';
import { say } from '../text/say.ts';

export interface StoreOptions extends OpenOptions, Partial<Surroundings> {
  readonly storage?: StorageManager;
}

/** A notebook of the list: newest first, deleted ones among them until they are purged. */
export type NotebookLine = Omit<Head, 'inFile' | 'writer' | 'last'>;

/** A notebook as it is kept. */
export interface Kept {
  readonly notebook: Notebook;
  /** The device that the stamps of edits made here name: for the session's clock. */
  readonly writer: string;
  /** What was damaged and is kept aside, now and from earlier times. */
  readonly damage: readonly Damage[];
}

/** A notebook opened for writing. One tab at a time may hold it: see `claimNotebook`. */
export interface Opened extends Kept {
  readonly journal: NotebookJournal;
}

/**
 * Opens the store of this browser. A fault, after three seconds at most, where the browser refuses
 * or does not answer: typing then goes on in memory, and its sentence says so.
 */
export async function openStore(options: StoreOptions = {}): Promise<Store | Fault> {
  const use = await openStrictStore(options);
  if (isFault(use)) return use;
  return new Store(
    use,
    {
      now: options.now ?? Date.now,
      pause: options.pause ?? breathing(),
      whenIdle: options.whenIdle ?? idle,
      compactAfter: options.compactAfter ?? 250,
    },
    new Persistence(options.storage),
  );
}

/** Lets the page breathe, but no oftener than it needs to: each time costs some milliseconds. */
function breathing(): () => Promise<void> {
  let last = performance.now();
  return async () => {
    if (performance.now() - last < 25) return;
    await new Promise((resolve) => setTimeout(resolve, 0));
    last = performance.now();
  };
}

function idle(): Promise<void> {
  return new Promise((resolve) => {
    if (typeof requestIdleCallback === 'function')
      requestIdleCallback(() => resolve(), { timeout: 5000 });
    else setTimeout(resolve, 200);
  });
}

/** All notebooks of this browser. Reading gives values or faults; writing rejects with a sentence. */
export class Store {
  /** The person's own templates, kept in the same place. */
  readonly templates: OwnTemplates;

  constructor(
    private readonly use: UseStore,
    private readonly around: Surroundings,
    /** Whether the browser has promised to keep what is here; asked after the first real save. */
    readonly persistence: Persistence,
  ) {
    this.templates = new OwnTemplates(use);
  }

  /** Every notebook kept here, last used first. One whose line is damaged is listed by its id. */
  async list(): Promise<readonly NotebookLine[]> {
    const [heads, marks] = await this.use('readonly', (store) =>
      Promise.all([
        promisifyRequest<unknown[]>(store.getAll(under('head'))),
        promisifyRequest(store.getAllKeys(under('snapshot'))),
      ]),
    );
    const sound = heads.filter(isHead);
    const listed = new Set(sound.map(({ id }) => id));
    const unlisted = marks
      .map((key) => (Array.isArray(key) ? key[1] : null))
      .filter((id): id is string => typeof id === 'string' && !listed.has(id));
    return [...sound, ...unlisted.map(unreadableLine)].sort((a, b) => b.usedAt - a.usedAt);
  }

  /**
   * Keeps a whole notebook: a new one, or one in place of what was kept under its id. Rejects where
   * a newer program keeps a notebook there, since that cannot be read and must not be written over.
   */
  async add(notebook: Notebook): Promise<void> {
    const mark = await this.use('readonly', (store) =>
      promisifyRequest<unknown>(store.get(snapshotKey(notebook.id))),
    ).then(readMark);
    const newer = mark && newerVersion(mark.version, mark.language);
    if (newer) throw new StorageError(newer);
    const before = await this.head(notebook.id);
    const now = this.around.now();
    const head = { ...headOf(notebook, randomId(), now), last: before?.last ?? 0 };
    await this.writeWhole(notebook, head);
  }

  /** Reads a notebook without writing anything: for a tab that only follows, a copy, a file. */
  async read(id: string): Promise<Kept | Fault> {
    const loaded = await loadNotebook(this.use, id, this.around.pause);
    if (isFault(loaded)) return loaded;
    const damage = [...(await this.aside(id)), ...loaded.damage];
    return { notebook: loaded.notebook, writer: loaded.head?.writer ?? randomId(), damage };
  }

  /**
   * Opens a notebook for writing. What is damaged is put aside for download; the rest is kept anew,
   * under a new writer, since stamps of the former one may have been lost with it.
   */
  async open(id: string, told: Told = {}): Promise<Opened | Fault> {
    const loaded = await loadNotebook(this.use, id, this.around.pause);
    if (isFault(loaded)) return loaded;
    const { notebook } = loaded;
    const now = this.around.now();
    const isWhole = loaded.damage.length === 0 && loaded.head !== null;
    const isRewritten = loaded.damage.length > 0 || loaded.isOld;
    const kept = loaded.head ?? headOf(notebook, randomId(), now);
    const head: Head = {
      ...kept,
      usedAt: now,
      last: loaded.last,
      writer: isWhole ? kept.writer : randomId(),
    };
    // Failing to note this must not keep anybody from opening a notebook that can be read.
    const isNoted = await this.note(loaded, head).then(
      () => true,
      () => false,
    );
    const isFolded = isNoted && isRewritten;
    const journal = new NotebookJournal(
      this.use,
      this.around,
      head,
      notebook,
      isFolded ? 0 : loaded.edits,
      isFolded ? undefined : touchedBy(loaded),
      {
        ...told,
        onKept: (transaction, latest, number) => {
          void this.persistence.ask();
          told.onKept?.(transaction, latest, number);
        },
      },
    );
    const damage = isNoted
      ? await this.aside(id)
      : [...(await this.aside(id).catch(() => [])), ...loaded.damage];
    return { notebook, writer: head.writer, damage, journal };
  }

  private async note({ notebook, damage, isOld }: Loaded, head: Head): Promise<void> {
    if (damage.length === 0 && !isOld)
      return write(this.use, (store) => store.put(head, headKey(notebook.id)));
    const before = (await this.aside(notebook.id)).length;
    await this.writeWhole(notebook, head, (store) => {
      for (const [i, found] of damage.entries())
        store.put(found, asideKey(notebook.id, before + i));
    });
  }

  /** Gives a notebook another title, in its own right: an edit as any other. Not for an open one. */
  async rename(id: string, title: string): Promise<Fault | null> {
    const opened = await this.open(id);
    if (isFault(opened)) return opened;
    const { notebook, writer, journal } = opened;
    const stamp = nextStamp(notebook, writer, this.around.now());
    const path = ['about', 'notebook', 'title'] as const;
    const edit = {
      label: say('the title'),
      source: 'typed',
      sets: [{ path, value: title }],
    } as const;
    const renamed = applyEdit(notebook, edit, stamp);
    if (renamed.changes.length === 0) return null;
    const { label, source } = edit;
    const transaction: Transaction = { label, source, stamp, changes: renamed.changes };
    await journal.append(transaction, renamed.notebook);
    return null;
  }

  /** Keeps the same notebook once more, under an id and title of its own; gives the new id. */
  async copy(id: string, title?: string): Promise<string | Fault> {
    const kept = await this.read(id);
    if (isFault(kept)) return kept;
    const copy = { ...kept.notebook, id: randomId() };
    await this.add(copy);
    await this.rename(
      copy.id,
      title ?? say('{title} (copy)', { title: aboutOf(copy).title ?? '' }).trim(),
    );
    return copy.id;
  }

  /** Deletes a notebook from the list; it is kept aside, whole, until `purge`. */
  async remove(id: string): Promise<void> {
    await this.changeHead(id, { removedAt: this.around.now() });
  }

  /** Takes a deletion back. */
  async restore(id: string): Promise<void> {
    await this.changeHead(id, { removedAt: null });
  }

  /** Deletes a notebook for good, with everything kept aside of it. */
  async purge(id: string): Promise<void> {
    await write(this.use, (store) => {
      for (const kind of kinds) store.delete(under(kind, id));
    });
  }

  /** What was damaged in a notebook and is kept aside. */
  async aside(id: string): Promise<readonly Damage[]> {
    return this.use('readonly', (store) =>
      promisifyRequest<Damage[]>(store.getAll(under('aside', id))),
    );
  }

  /** Forgets what was kept aside, once a person has it or does not want it. */
  async forgetAside(id: string): Promise<void> {
    await write(this.use, (store) => store.delete(under('aside', id)));
  }

  private async head(id: string): Promise<Head | null> {
    const head = await this.use('readonly', (store) =>
      promisifyRequest<unknown>(store.get(headKey(id))),
    );
    return isHead(head) ? head : null;
  }

  private async changeHead(id: string, facts: Partial<Head>): Promise<void> {
    const kept = await this.head(id);
    const loaded = kept ? null : await this.read(id);
    if (loaded && isFault(loaded)) return;
    const head = kept ?? (loaded && headOf(loaded.notebook, loaded.writer, this.around.now()));
    if (head) await write(this.use, (store) => store.put({ ...head, ...facts }, headKey(id)));
  }

  private async writeWhole(
    notebook: Notebook,
    head: Head,
    also: (store: IDBObjectStore) => void = () => undefined,
  ): Promise<void> {
    const { id } = notebook;
    const pieces = await piecesOf(notebook, everything(notebook), head.last, this.around.pause);
    await write(this.use, (store) => {
      for (const kind of ['table', 'day', 'edit'] as const) store.delete(under(kind, id));
      putPieces(store, pieces);
      store.put(head, headKey(id));
      also(store);
    });
  }
}

function touchedBy({ waiting }: Loaded): Touched {
  const days = new Set<string>();
  const tables = new Set<string>();
  for (const { path } of waiting)
    if (path[0] === 'readings') days.add(path[1]);
    else tables.add(path[0]);
  return { days, tables };
}

function nextStamp({ seen }: Notebook, writer: string, now: number): Stamp {
  const [ms, counter] = Object.values(seen).reduce<readonly [number, number]>(
    (greatest, [m, c]) =>
      m > greatest[0] || (m === greatest[0] && c > greatest[1]) ? [m, c] : greatest,
    [0, 0],
  );
  return now > ms ? [now, 0, writer] : [ms, counter + 1, writer];
}

function unreadableLine(id: string): NotebookLine {
  return {
    id,
    title: say('A notebook whose title cannot be read ({id})', { id }),
    place: '',
    changedAt: 0,
    usedAt: 0,
    animals: 0,
    days: 0,
    counts: 0,
    countsNotInFile: 0,
    editsNotInFile: 0,
    removedAt: null,
  };
}

/** What a person is told when something of a notebook is damaged. */
export function damageSentence(damage: readonly Damage[]): string {
  const [first] = damage;
  if (!first) return '';
  return say(
    'Part of this notebook was damaged and could not be read: {n, plural, =0 {{place}} other {{place} and # more}}. Everything else is here. What is damaged is kept aside: download it, and open your last saved file to bring back what it held.',
    { place: first.place, n: damage.length - 1 },
  );
}

/** What is kept aside, as the text of a file. */
export function damageText(damage: readonly Damage[]): string {
  return `${JSON.stringify(damage, null, 2)}\n`;
}
