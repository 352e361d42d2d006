import type { UseStore } from 'idb-keyval';
import type { Transaction } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { writeEntry } from './entry.ts';
import { headAfter, headInFile, headOf, type Head } from './head.ts';
import { editKey, editsUpTo, headKey, under } from './keys.ts';
import { everything, piecesOf, putPieces, type Touched } from './snapshot.ts';
import { write } from './strict-store.ts';

/** What the journal asks of the world outside it. */
export interface Surroundings {
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Lets the page breathe between two pieces of work. */
  readonly pause: () => Promise<void>;
  /** Resolves when the page has nothing better to do. */
  readonly whenIdle: () => Promise<void>;
  /** After so many edits the journal is folded into the snapshot. */
  readonly compactAfter: number;
}

/** Told what is on the disk, for other tabs to follow. */
export interface Told {
  /** An edit, with its number, by which followers notice one they missed. */
  readonly onKept?: (transaction: Transaction, notebook: Notebook, number: number) => void;
  /** A whole notebook in place of what was there. */
  readonly onReplaced?: () => void;
}

interface Numbered {
  readonly number: number;
  readonly text: string;
}

/**
 * Keeps the edits of one open notebook, each under a key of its own; now and then folds them into
 * the snapshot. There is one writer of a notebook at a time: see `tabs.ts`.
 */
export class NotebookJournal {
  private failed: Numbered[] = [];
  private readonly underWay = new Set<Promise<void>>();
  private touched: { tables: Set<string>; days: Set<string> };
  /** The last edit that a snapshot now holds: it must never be replayed over it. */
  private folded = 0;
  private folding: Promise<void> | null = null;
  /** A whole notebook, to be put in place of what is kept, could not be written. */
  private isReplaceDue = false;

  /**
   * @param latest the notebook as it was loaded, with the edits that are still in the journal
   * @param edits how many those are
   * @param touched what they touched
   */
  constructor(
    private readonly use: UseStore,
    private readonly around: Surroundings,
    private head: Head,
    private latest: Notebook,
    private edits = 0,
    touched: Touched = { tables: new Set(), days: new Set() },
    private readonly told: Told = {},
  ) {
    this.touched = { tables: new Set(touched.tables), days: new Set(touched.days) };
  }

  /** What is not yet in a file: counts, and edits of any kind. */
  get notInFile(): { readonly counts: number; readonly edits: number } {
    return { counts: this.head.countsNotInFile, edits: this.head.editsNotInFile };
  }

  /**
   * Keeps one edit. Resolves once it is on the disk, with every one before it; rejects with an error
   * whose message is a sentence for people. What could not be kept is tried again with the next edit.
   */
  append(transaction: Transaction, notebook: Notebook): Promise<void> {
    const appended = this.keep(transaction, notebook);
    this.underWay.add(appended);
    const ended = (): void => void this.underWay.delete(appended);
    appended.then(ended, ended);
    return appended;
  }

  private async keep(transaction: Transaction, notebook: Notebook): Promise<void> {
    this.head = headAfter(this.head, transaction, notebook, this.around.now());
    this.latest = notebook;
    for (const { path } of transaction.changes) {
      if (path[0] === 'readings') this.touched.days.add(path[1]);
      else this.touched.tables.add(path[0]);
    }
    const number = this.head.last;
    await this.put([{ number, text: writeEntry(transaction, notebook) }]);
    // An earlier edit may have failed meanwhile: it must not be passed over.
    if (this.failed.length > 0) await this.put([]);
    if (this.isReplaceDue) await this.replace(this.latest);
    this.told.onKept?.(transaction, notebook, number);
    if (this.edits >= this.around.compactAfter) void this.around.whenIdle().then(this.compact);
  }

  /** Writes entries, those that failed before among them, with the notebook's line in the list. */
  private async put(fresh: readonly Numbered[]): Promise<void> {
    const entries = [...this.failed, ...fresh];
    this.failed = [];
    const { id } = this.head;
    try {
      await write(this.use, (store) => {
        // An edit under a number already taken means that another tab writes: it must not win.
        for (const { number, text } of entries) store.add(text, editKey(id, number));
        store.put(this.head, headKey(id));
      });
    } catch (error) {
      this.failed = [...this.failed, ...entries]
        .filter(({ number }) => number > this.folded)
        .sort((a, b) => a.number - b.number);
      throw error;
    }
    this.edits += entries.length;
  }

  /** Tries again to keep what could not be kept; resolves when nothing is left that is not on disk. */
  async retry(): Promise<void> {
    await this.settled();
    if (this.failed.length > 0) await this.put([]);
  }

  /** Resolves when every edit handed in so far is kept or has failed. */
  async settled(): Promise<void> {
    while (this.underWay.size > 0) await Promise.allSettled([...this.underWay]);
  }

  /** Says that the notebook, as it is in this value, is now in a file. */
  async savedToFile(notebook: Notebook): Promise<void> {
    this.head = headInFile(this.head, this.latest, notebook.seen);
    await write(this.use, (store) => store.put(this.head, headKey(this.head.id)));
  }

  /** Keeps a whole notebook in place of what was kept: after undoing a merge, for one. */
  async replace(notebook: Notebook): Promise<void> {
    const { last, writer, inFile } = this.head;
    const head = { ...headOf(notebook, writer, this.around.now()), last };
    this.head = headInFile(head, notebook, inFile);
    this.latest = notebook;
    const written = this.fold(everything(notebook), this.folding, true);
    const folding = written.catch(() => undefined);
    this.folding = folding;
    try {
      await written;
      this.isReplaceDue = false;
    } catch (error) {
      this.isReplaceDue = true;
      throw error;
    } finally {
      if (this.folding === folding) this.folding = null;
    }
    this.told.onReplaced?.();
  }

  /**
   * Folds the edits into the snapshot: the pieces they touched are written, and they are deleted, in
   * one transaction, so that at no moment a count is in neither. While edits are under way, or failed
   * ones wait, it is left for later.
   */
  readonly compact = async (): Promise<void> => {
    if (this.folding || this.isReplaceDue || this.underWay.size + this.failed.length > 0) return;
    const { touched } = this;
    // If it fails, the journal still holds everything; it is tried again after a later edit.
    const folding = this.fold(touched, null).catch(() => {
      for (const table of touched.tables) this.touched.tables.add(table);
      for (const day of touched.days) this.touched.days.add(day);
    });
    this.folding = folding;
    await folding;
    if (this.folding === folding) this.folding = null;
  };

  /** Takes hold of the notebook now; edits made while it is written stay in the journal. */
  private async fold(
    touched: Touched,
    before: Promise<void> | null,
    isWhole = false,
  ): Promise<void> {
    const { edits } = this;
    const { id, last } = this.head;
    this.touched = { tables: new Set(), days: new Set() };
    const taking = piecesOf(this.latest, touched, last, this.around.pause);
    await before;
    const pieces = await taking;
    await write(this.use, (store) => {
      if (isWhole) for (const kind of ['table', 'day'] as const) store.delete(under(kind, id));
      putPieces(store, pieces);
      store.delete(editsUpTo(id, last));
      store.put(this.head, headKey(id));
    });
    this.folded = last;
    this.failed = this.failed.filter(({ number }) => number > last);
    this.edits -= edits;
  }
}
