import type { Seen } from '../../shared/cell.ts';
import type { Change, Source, Transaction } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import type { Told } from './journal.ts';
import { randomId } from './random-id.ts';

/** The tab that writes a notebook, or one that follows what another tab writes. */
export type Role = 'writer' | 'follower';

/** An edit that the writing tab has kept, for `Session.takeIn`. */
export interface Followed {
  readonly label: string;
  readonly source: Source;
  readonly changes: readonly Change[];
  readonly seen: Seen;
}

/** A notebook as held by this tab, among the tabs of this browser. */
export interface Claim {
  readonly role: Role;
  /** Heard when this tab becomes the writer, or stops being it: the notebook is then to be reopened. */
  onRole(listener: (role: Role) => void): () => void;
  /** Follower: heard for every edit the writer has kept. What came before the first listener waits. */
  onChange(listener: (followed: Followed) => void): () => void;
  /** Follower: heard when it lost track, or a whole notebook was replaced: it is to be read again. */
  onLostTrack(listener: () => void): () => void;
  /** Writer: tells the followers; hand it to `Store.open`. */
  readonly told: Told;
  /**
   * Writer: what has to be finished before another tab may take over, such as
   * `NotebookJournal.settled`.
   */
  beforeHandOver(finish: () => Promise<void>): void;
  /** Follower: asks the writer to hand over, and takes over from one that does not answer. */
  takeOver(): Promise<void>;
  /** Lets go of the notebook. */
  release(): void;
}

export interface TabOptions {
  readonly locks?: LockManager;
  readonly channel?: (name: string) => BroadcastChannel;
  /** Milliseconds after which a writer that does not answer loses the notebook. */
  readonly patience?: number;
}

type Message =
  | ({ readonly kind: 'kept'; readonly number: number } & Followed)
  | { readonly kind: 'replaced' }
  | { readonly kind: 'hand over'; readonly to: string }
  | { readonly kind: 'writer?'; readonly from: string }
  | { readonly kind: 'writer here' };

/**
 * Claims a notebook for this tab. One tab of a browser writes it; the others follow live, and one of
 * them takes its place when it is closed, or when a person says so.
 */
export async function claimNotebook(id: string, options: TabOptions = {}): Promise<Claim> {
  const tab = new Tab(id, options);
  await tab.start();
  return tab;
}

class Tab implements Claim {
  role: Role = 'follower';
  private readonly channel: BroadcastChannel;
  private readonly locks: LockManager | undefined;
  private readonly lockName: string;
  private readonly patience: number;
  private readonly self = randomId();
  private readonly roleListeners = new Set<(role: Role) => void>();
  private readonly changeListeners = new Set<(followed: Followed) => void>();
  private readonly lostListeners = new Set<() => void>();
  private waiting: Followed[] = [];
  private lastNumber: number | null = null;
  private finish: () => Promise<void> = () => Promise.resolve();
  private letGo: (() => void) | null = null;
  private queued: AbortController | null = null;
  private isReleased = false;
  private onWriterHere: (() => void) | null = null;
  private isLost = false;

  constructor(id: string, options: TabOptions) {
    this.lockName = `sampling-daybook ${id}`;
    this.channel = (options.channel ?? ((name) => new BroadcastChannel(name)))(this.lockName);
    // Without a secure address there are no locks: then the tabs agree by asking each other.
    this.locks = options.locks ?? lockManager();
    this.patience = options.patience ?? 2000;
  }

  readonly told: Told = {
    onKept: (transaction: Transaction, notebook: Notebook, number: number) => {
      const { label, source, changes } = transaction;
      this.post({ kind: 'kept', number, label, source, changes, seen: notebook.seen });
    },
    onReplaced: () => this.post({ kind: 'replaced' }),
  };

  async start(): Promise<void> {
    this.channel.onmessage = ({ data }: MessageEvent<Message>) => this.hear(data);
    if (!this.locks) {
      if (!(await this.isThereAWriter())) this.role = 'writer';
      return;
    }
    await this.request({ ifAvailable: true });
    if (this.role === 'follower') this.queue();
  }

  onRole(listener: (role: Role) => void): () => void {
    return added(this.roleListeners, listener);
  }

  onChange(listener: (followed: Followed) => void): () => void {
    for (const followed of this.waiting.splice(0)) listener(followed);
    return added(this.changeListeners, listener);
  }

  onLostTrack(listener: () => void): () => void {
    if (this.isLost) listener();
    this.isLost = false;
    return added(this.lostListeners, listener);
  }

  beforeHandOver(finish: () => Promise<void>): void {
    this.finish = finish;
  }

  async takeOver(): Promise<void> {
    if (this.role === 'writer' || this.isReleased) return;
    const became = new Promise<void>((resolve) => {
      const stop = this.onRole(() => {
        stop();
        resolve();
      });
    });
    this.post({ kind: 'hand over', to: this.self });
    if (!this.locks) {
      await pause(Math.min(this.patience, 500));
      this.become('writer');
      return;
    }
    const isGiven = await Promise.race([
      became.then(() => true),
      pause(this.patience).then(() => false),
    ]);
    if (isGiven) return;
    this.queued?.abort();
    this.queued = null;
    await this.request({ steal: true });
  }

  release(): void {
    this.isReleased = true;
    this.queued?.abort();
    this.letGo?.();
    this.letGo = null;
    this.channel.close();
  }

  /** Resolves once the lock is held, or was not to be had. Holding it lasts until `letGo`. */
  private request(options: LockOptions): Promise<void> {
    return new Promise((resolve) => {
      const ended = this.locks?.request(this.lockName, options, (lock) => {
        if (!lock || this.isReleased) return resolve();
        const held = new Promise<void>((letGo) => (this.letGo = letGo));
        this.become('writer');
        resolve();
        return held;
      });
      // Rejected when another tab takes the lock by force, or the wait for it was called off.
      ended?.catch(() => {
        this.letGo = null;
        resolve();
        if (options.signal?.aborted || this.isReleased) return;
        this.become('follower');
        this.queue();
      });
    });
  }

  /** Waits in line: when the writer's tab is closed, this one goes on in its place. */
  private queue(): void {
    if (this.isReleased) return;
    this.queued = new AbortController();
    void this.request({ signal: this.queued.signal });
  }

  private become(role: Role): void {
    if (this.role === role) return;
    this.role = role;
    this.waiting = [];
    this.isLost = false;
    this.lastNumber = null;
    for (const listener of this.roleListeners) listener(role);
  }

  private async handOver(): Promise<void> {
    if (this.role !== 'writer') return this.stepBack();
    // From now on nothing more may be typed here; what is under way is finished first.
    this.become('follower');
    await this.finish().catch(() => undefined);
    this.letGo?.();
    this.letGo = null;
    if (this.locks) this.queue();
  }

  /** Leaves the line for a moment: another follower has asked for the notebook. */
  private async stepBack(): Promise<void> {
    if (!this.queued) return;
    this.queued.abort();
    this.queued = null;
    await pause(this.patience / 2);
    if (this.role === 'follower' && !this.queued) this.queue();
  }

  private hear(message: Message): void {
    if (message.kind === 'hand over') void this.handOver();
    else if (message.kind === 'writer?') {
      // Of two tabs that ask at one moment the one with the lesser name writes.
      const isFirst = this.onWriterHere !== null && this.self < message.from;
      if (this.role === 'writer' || isFirst) this.post({ kind: 'writer here' });
      else this.onWriterHere?.();
    } else if (message.kind === 'writer here') this.onWriterHere?.();
    else if (this.role === 'follower') this.follow(message);
  }

  private follow(message: Extract<Message, { kind: 'kept' | 'replaced' }>): void {
    if (message.kind === 'replaced') return this.loseTrack();
    const { kind: _, number, ...followed } = message;
    const isNext = this.lastNumber === null || number === this.lastNumber + 1;
    this.lastNumber = number;
    if (!isNext) return this.loseTrack();
    if (this.changeListeners.size === 0) this.waiting.push(followed);
    for (const listener of this.changeListeners) listener(followed);
  }

  private loseTrack(): void {
    this.waiting = [];
    this.isLost = this.lostListeners.size === 0;
    for (const listener of this.lostListeners) listener();
  }

  private isThereAWriter(): Promise<boolean> {
    return new Promise<boolean>((resolve) => {
      this.onWriterHere = () => resolve(true);
      this.post({ kind: 'writer?', from: this.self });
      void pause(150).then(() => resolve(false));
    }).then((isThere) => {
      this.onWriterHere = null;
      return isThere;
    });
  }

  private post(message: Message): void {
    if (!this.isReleased) this.channel.postMessage(message);
  }
}

/** Offered at secure addresses only, whatever its type says. */
function lockManager(): LockManager | undefined {
  const { locks } = navigator as Partial<Navigator>;
  return locks;
}

function added<T>(set: Set<T>, item: T): () => void {
  set.add(item);
  return () => set.delete(item);
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
