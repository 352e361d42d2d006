import type { Seen, Stamp } from '../../shared/cell.ts';
import type { Engine } from '../../shared/derived.ts';
import type { Change, Edit, Path, Source, Transaction } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import type { DayId, Ref, RowId } from '../../shared/ref.ts';
import { applyEdit, writeCells } from '../notebook/apply-edit.ts';
import { mergeNotebooks, type Merged } from '../notebook/merge.ts';
import { dayOf, daysOf } from '../notebook/read.ts';
import { undoing, type Origins } from '../notebook/undo.ts';
import { zerosOnLeaving } from '../notebook/zeros-on-leaving.ts';
import type { Clock } from './clock.ts';
import { emptyHistory, withRedo, withStep, withUndo, type History } from './history.ts';
import { say } from '../text/say.ts';

/** Told once for each thing that happened, after the engine has taken it in. */
export interface Notice {
  /** Cells of the open day whose typed or derived value changed. */
  readonly refs: readonly Ref[];
  /** More than cells changed: animals, columns, days, limits, the open day itself. */
  readonly isWide: boolean;
  readonly transaction?: Transaction;
}

export type Listener = (notice: Notice) => void;

/** Where transactions go to be kept. */
export interface Journal {
  /** Resolves once the transaction, and every one before it, is on disk. */
  append(transaction: Transaction, notebook: Notebook): Promise<void>;
  /** Keeps a whole notebook in place of what was kept: a merge taken back. */
  replace(notebook: Notebook): Promise<void>;
  /** Tries again to keep what failed. */
  retry?(): Promise<void>;
}

/** `memory`: keeping failed or was refused; everything typed since is only in this page. */
export type Saved =
  | { readonly state: 'saved'; readonly at: number | null }
  | { readonly state: 'saving' }
  | { readonly state: 'memory'; readonly sentence: string };

/** What undo says of a merge, as long as it gives the former copy back. */
export const mergeLabel = say('the merge of a second copy');

/** Pairs of animals with equal tags that a person says are two. */
export type KeepApart = readonly (readonly [string, string])[];

export interface SessionParts {
  readonly engine: Engine;
  readonly clock: Clock;
  readonly journal?: Journal;
  /** Milliseconds since 1970, for "saved at". */
  readonly now: () => number;
}

/**
 * The one holder of an open notebook. All changes pass `dispatch`; listeners hear once, when the
 * engine has followed. The session gives up former notebooks: read `session.notebook` afresh and
 * never keep one across a dispatch.
 */
export class Session {
  private held: Notebook;
  private day: DayId | null = null;
  private row: RowId | null = null;
  private past: History = emptyHistory;
  private origins: Origins = new Map();
  /** The copy before a merge, until the next edit. */
  private beforeMerge: { readonly notebook: Notebook; readonly step: Transaction } | null = null;
  private keeping: Saved = { state: 'saved', at: null };
  private pending = 0;
  private readonly underWay = new Set<Promise<unknown>>();
  private readonly listeners = new Set<Listener>();
  private readonly savedListeners = new Set<() => void>();

  constructor(
    notebook: Notebook,
    private readonly parts: SessionParts,
  ) {
    this.held = notebook;
    for (const [device, [ms, counter]] of Object.entries(notebook.seen))
      parts.clock.saw([ms, counter, device]);
  }

  get notebook(): Notebook {
    return this.held;
  }

  get engine(): Engine {
    return this.parts.engine;
  }

  get openDay(): DayId | null {
    return this.day;
  }

  /** The row a person is typing in, whose lone chamber is held back from figures. */
  get typingRow(): RowId | null {
    return this.row;
  }

  get saved(): Saved {
    return this.keeping;
  }

  /** What undo would take back, or null. */
  get undoLabel(): string | null {
    return this.beforeMerge?.step.label ?? this.past.done.at(-1)?.label ?? null;
  }

  get redoLabel(): string | null {
    return this.past.undone.at(-1)?.label ?? null;
  }

  subscribe(listener: Listener): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  subscribeSaved(listener: () => void): () => void {
    this.savedListeners.add(listener);
    return () => this.savedListeners.delete(listener);
  }

  /** Whether an edit, or a change of the row being typed in, is under way. */
  get isBusy(): boolean {
    return this.underWay.size > 0;
  }

  /** Resolves when no edit, and no change of the row being typed in, is under way any more. */
  async settled(): Promise<void> {
    while (this.isBusy) await Promise.all(this.underWay);
  }

  /** Whether edits are taken here. */
  get isWriting(): boolean {
    return true;
  }

  /** Whether edits are taken here; where they are not, the person is told, and what was typed is to stay as it is. */
  mayWrite(): boolean {
    return true;
  }

  /** Does one edit. An edit that alters nothing leaves no trace: no step, no notice, no journal. */
  dispatch(edit: Edit): Promise<Transaction | null> {
    return this.noted(this.doEdit(edit));
  }

  private noted<T>(work: Promise<T>): Promise<T> {
    const ended = (): void => void this.underWay.delete(done);
    const done: Promise<void> = work.then(ended, ended);
    this.underWay.add(done);
    return work;
  }

  private async doEdit(edit: Edit): Promise<Transaction | null> {
    const stamp = this.parts.clock.next();
    const { notebook, changes } = applyEdit(this.held, edit, stamp, 'days in place');
    if (changes.length === 0) return null;
    this.held = notebook;
    const transaction: Transaction = { label: edit.label, source: edit.source, stamp, changes };
    this.past = withStep(this.past, transaction);
    await this.follow(transaction);
    return transaction;
  }

  /**
   * Takes in changes that bear stamps of their own (a second copy, another tab), as one step, with
   * what the other one had seen: values it had superseded must not come back from a third one.
   */
  async takeIn(
    label: string,
    source: Source,
    changes: readonly Change[],
    seen: Seen = {},
  ): Promise<void> {
    if (changes.length === 0) return;
    const stamps = [
      ...changes.flatMap(({ to }) => (to ?? []).map(([, stamp]) => stamp)),
      ...stampsOf(seen),
    ];
    for (const stamp of stamps) this.parts.clock.saw(stamp);
    this.held = writeCells(this.held, changes, stamps, 'days in place');
    const transaction = { label, source, stamp: this.parts.clock.next(), changes };
    await this.follow(transaction);
  }

  /** What a merge with a second copy would come to; nothing is changed. */
  lookAtMerge(theirs: Notebook, keepApart: KeepApart = []): Merged {
    const stamp = [endOfTime, 0, 'look'] as const;
    return mergeNotebooks(this.held, theirs, { stamp, now: this.parts.now(), keepApart });
  }

  /**
   * Makes one notebook of this one and a second copy; says what a person should look at. `undo` gives
   * back the former copy until the next edit.
   */
  async merge(theirs: Notebook, keepApart: KeepApart = []): Promise<Merged> {
    if (this.row !== null) await this.enterRow(null);
    const { clock, now } = this.parts;
    for (const stamp of stampsOf(theirs.seen)) clock.saw(stamp);
    const choices = { stamp: clock.next(), now: now(), keepApart };
    const merged = mergeNotebooks(this.held, theirs, choices);
    if (merged.changes.length === 0) return merged;
    const days = Object.entries(this.held.readings).map(([id, rows]) => [id, { ...rows }] as const);
    const former = { ...this.held, readings: Object.fromEntries(days) };
    const label = mergeLabel;
    const step = { label, source: 'merge', stamp: clock.next(), changes: merged.changes } as const;
    await this.takeIn(label, 'merge', merged.changes, merged.seen);
    this.beforeMerge = { notebook: former, step };
    return merged;
  }

  private async undoMerge(before: { notebook: Notebook; step: Transaction }): Promise<void> {
    const { notebook, step } = before;
    const changes = step.changes.map(({ path, from, to }) => ({ path, from: to, to: from }));
    this.held = notebook;
    await this.follow({ ...step, source: 'undo', changes }, (journal) => journal.replace(notebook));
  }

  /** Takes the newest step back; names the places that were written since and so left alone. */
  async undo(): Promise<{ readonly label: string; readonly passedOver: readonly Path[] } | null> {
    const before = this.beforeMerge;
    if (before) {
      await this.undoMerge(before);
      return { label: before.step.label, passedOver: [] };
    }
    return this.takeBack(this.past.done.at(-1), 'undo', withUndo);
  }

  async redo(): Promise<{ readonly label: string; readonly passedOver: readonly Path[] } | null> {
    return this.takeBack(this.past.undone.at(-1), 'redo', withRedo);
  }

  private async takeBack(
    step: Transaction | undefined,
    source: 'undo' | 'redo',
    record: (history: History, inverse: Transaction) => History,
  ): Promise<{ readonly label: string; readonly passedOver: readonly Path[] } | null> {
    if (!step) return null;
    const stamp = this.parts.clock.next();
    const { changes, passedOver, origins } = undoing(this.held, step, stamp, this.origins);
    this.origins = origins;
    this.held = writeCells(this.held, changes, [stamp], 'days in place');
    const inverse: Transaction = { label: step.label, source, stamp, changes };
    this.past = record(this.past, inverse);
    await this.follow(inverse);
    return { label: step.label, passedOver };
  }

  /** Opens a sampling day: its columns show, its figures are worked out. */
  async open(day: DayId): Promise<void> {
    if (this.row !== null) await this.enterRow(null);
    this.day = day;
    await this.parts.engine.open(this.held, day);
    if (this.day === day) this.notify({ refs: [], isWide: true });
  }

  /** Opens the newest day; none on a notebook without days. */
  async openNewest(): Promise<void> {
    const newest = daysOf(this.held).at(-1);
    if (newest) await this.open(newest.id);
  }

  /**
   * The row now being typed in. On leaving a row its held-back chamber counts, and the further egg
   * types looked for and left blank become visible zeros by one edit that can be undone.
   */
  enterRow(row: RowId | null): Promise<void> {
    return row === this.row ? Promise.resolve() : this.noted(this.goToRow(row));
  }

  private async goToRow(row: RowId | null): Promise<void> {
    const left = this.row;
    this.row = row;
    const refs = await this.parts.engine.holdBack(row);
    if (refs.length > 0) this.notify({ refs, isWide: false });
    if (left !== null && this.day !== null) {
      const zeros = zerosOnLeaving(this.held, this.day, left);
      if (zeros) await this.dispatch(zeros);
    }
  }

  /** Tries again to keep what could not be kept, without waiting for the next edit. */
  saveAgain(): void {
    if (this.keeping.state === 'memory' && this.parts.journal?.retry)
      this.keep((journal) => journal.retry?.() ?? Promise.resolve());
  }

  private async follow(
    transaction: Transaction,
    keeping = (journal: Journal): Promise<void> => journal.append(transaction, this.held),
  ): Promise<void> {
    this.beforeMerge = null;
    this.keep(keeping);
    const isWide = transaction.changes.some(({ path }) => path[0] !== 'readings');
    if (!this.isDayThere()) await this.openAnother();
    const derived = await this.parts.engine.apply(this.held, transaction.changes);
    const typed = transaction.changes.flatMap(({ path }) =>
      path[0] === 'readings' ? [{ day: path[1], row: path[2], column: path[3] }] : [],
    );
    this.notify({ refs: [...typed, ...derived], isWide, transaction });
  }

  private isDayThere(): boolean {
    const day = this.day === null ? undefined : dayOf(this.held, this.day);
    return day?.date !== undefined && day.removed !== true;
  }

  private async openAnother(): Promise<void> {
    this.day = null;
    this.row = null;
    await this.openNewest();
  }

  private keep(keeping: (journal: Journal) => Promise<void>): void {
    const { journal } = this.parts;
    if (!journal) return;
    this.pending += 1;
    if (this.keeping.state !== 'memory') this.setSaved({ state: 'saving' });
    keeping(journal).then(
      () => {
        this.pending -= 1;
        // An edit that failed is kept along with a later one: then all is saved again.
        if (this.pending === 0) this.setSaved({ state: 'saved', at: this.parts.now() });
      },
      (reason: unknown) => {
        this.pending -= 1;
        const sentence = reason instanceof Error ? reason.message : String(reason);
        this.setSaved({ state: 'memory', sentence });
      },
    );
  }

  private setSaved(saved: Saved): void {
    this.keeping = saved;
    for (const listener of this.savedListeners) listener();
  }

  private notify(notice: Notice): void {
    for (const listener of this.listeners) listener(notice);
  }
}

/** Later than every stamp: the last moment that a date can name. */
const endOfTime = 8.64e15;

function stampsOf(seen: Seen): Stamp[] {
  return Object.entries(seen).map(([device, [ms, counter]]) => [ms, counter, device]);
}
