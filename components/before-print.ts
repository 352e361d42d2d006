import type { ReactiveController, ReactiveElement } from 'lit';

/**
 * Calls `open` before the page is printed, to show whole what is folded on the screen. A browser prints right after
 * it has said so, so `open` also draws at once (`performUpdate`).
 */
export class BeforePrint implements ReactiveController {
  constructor(
    host: ReactiveElement,
    private readonly open: () => void,
  ) {
    host.addController(this);
  }

  hostConnected(): void {
    window.addEventListener('beforeprint', this.open);
  }

  hostDisconnected(): void {
    window.removeEventListener('beforeprint', this.open);
  }
}
