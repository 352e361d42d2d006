/** So far beyond the window something counts as in sight: scrolling should find it worked out. */
const margin = '300px';

/** Whether an element is in sight, and when it comes in sight. Counts as in sight until that is known. */
export class Sight {
  isIn = true;
  private readonly observer: IntersectionObserver;

  constructor(
    private readonly element: Element,
    cameIn: () => void,
  ) {
    const observed = (entries: readonly IntersectionObserverEntry[]): void => {
      const isIn = entries.at(-1)?.isIntersecting ?? true;
      const isNew = isIn && !this.isIn;
      this.isIn = isIn;
      if (isNew) cameIn();
    };
    this.observer = new IntersectionObserver(observed, { rootMargin: margin });
  }

  watch(): void {
    this.isIn = true;
    this.observer.observe(this.element);
  }

  leave(): void {
    this.observer.disconnect();
  }
}
