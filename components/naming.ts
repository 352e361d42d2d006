/**
 * While a formula is being written, a click on a cell, a column or a figure means its name. Whoever
 * writes a formula begins; whatever has a name offers it when clicked, and does its usual thing only
 * when no one took the name.
 */
class Naming {
  private take: ((name: string) => void) | null = null;
  private readonly listeners = new Set<() => void>();

  /** A formula is being written. */
  get isOn(): boolean {
    return this.take !== null;
  }

  begin(take: (name: string) => void): void {
    this.take = take;
    this.tell();
  }

  /** Ends it, unless another formula has begun meanwhile. */
  end(take?: (name: string) => void): void {
    if (take !== undefined && take !== this.take) return;
    this.take = null;
    this.tell();
  }

  /** True when the name was taken into a formula. */
  offer(name: string): boolean {
    if (!this.take) return false;
    this.take(name);
    return true;
  }

  subscribe(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}

/** A page writes one formula at a time. */
export const naming = new Naming();
