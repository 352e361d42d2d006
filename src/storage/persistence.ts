/** Whether the browser has promised not to clear away what is kept when it runs out of room. */
export type PersistenceAnswer = 'not asked' | 'promised' | 'refused' | 'not offered';

/**
 * Asks the browser, once and only after something real was kept, not to clear it away by itself.
 * Some browsers ask the person in turn, so the question must not come before there is a reason.
 */
export class Persistence {
  private given: PersistenceAnswer = 'not asked';
  private asked: Promise<void> | null = null;
  private readonly listeners = new Set<() => void>();

  constructor(
    private readonly manager: StorageManager | undefined = globalThis.navigator?.storage,
  ) {
    if (!manager?.persist) this.given = 'not offered';
  }

  get answer(): PersistenceAnswer {
    return this.given;
  }

  subscribe(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Asks, unless it was asked already. */
  ask(): Promise<void> {
    this.asked ??= this.askOnce();
    return this.asked;
  }

  private async askOnce(): Promise<void> {
    if (this.given === 'not offered') return;
    const isPromised = await this.manager?.persist().catch(() => false);
    this.given = isPromised ? 'promised' : 'refused';
    for (const listener of this.listeners) listener();
  }
}
