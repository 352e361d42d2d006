import type { OfflineMessage } from '../shared/worker-messages.ts';
import { say } from '../src/text/say.ts';

declare global {
  /** What the build tells the code it builds; absent where the code runs unbuilt. */
  interface ImportMeta {
    readonly env?: { readonly PROD: boolean };
  }
}

/** True in the page that `npm run build` made, false in one served from source. */
export const isBuilt = import.meta.env?.PROD === true;

/** What of a window decides whether the page can be kept for use offline. */
export interface Place {
  readonly isSecureContext: boolean;
  readonly location: { readonly protocol: string };
  readonly navigator: { readonly serviceWorker?: ServiceWorkerContainer };
}

/** Least time between two looks for a newer version while the page stays open, ms. */
const LOOK_AGAIN = 60 * 60 * 1000;

/**
 * What is missing at this address, in a sentence; `null` where nothing is. A plain http address in the local
 * network is no secure context: there browsers offer neither use offline nor a promise to keep data.
 */
export function lostHere({ isSecureContext, navigator }: Place): string | null {
  if (!isSecureContext) {
    return say(
      'This page came over a plain http address. It works, but it does not open without the network, it cannot be installed, and the browser may clear away what is kept here: save the notebook to a file after each session, or open the page over https.',
    );
  }
  if (!navigator.serviceWorker) {
    return say(
      'This browser does not keep the page for use without the network (a private window, perhaps). What you type is kept as the browser allows; save the notebook to a file too.',
    );
  }
  return null;
}

/**
 * The copy of the page kept for use offline, and whether a newer version is ready. A newer one is never taken by
 * itself: `take` does it, and only when a person asked.
 */
export class OfflineCopy {
  private readonly listeners = new Set<() => void>();
  private newer = false;
  private ready = false;
  private looked: number;
  private registration: ServiceWorkerRegistration | null = null;

  constructor(
    private readonly container: ServiceWorkerContainer,
    private readonly now: () => number,
  ) {
    this.looked = now();
  }

  /** A newer version is complete, or another tab has taken one that this page does not yet show. */
  get isNewerReady(): boolean {
    return this.newer;
  }

  /** From now on the page opens without the network. */
  get isReady(): boolean {
    return this.ready;
  }

  subscribe(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Begins to keep the page's files; failing is no fault of the person, and is tried again at the next visit. */
  async start(): Promise<void> {
    this.container.addEventListener('message', (event: MessageEvent<OfflineMessage>) =>
      this.hear(event.data),
    );
    this.container.startMessages();
    try {
      this.registration = await this.container.register('./service-worker.js', { scope: './' });
    } catch {
      return;
    }
    this.ask({ kind: 'which version' });
  }

  /** Looks for a newer version, at most once an hour; without the network it finds none. */
  async lookAgain(): Promise<void> {
    if (!this.registration || this.now() - this.looked < LOOK_AGAIN) return;
    this.looked = this.now();
    await this.registration.update().catch(() => undefined);
  }

  /** Uses the newest version from the next loading on; resolves when that holds. */
  take(): Promise<void> {
    return new Promise((taken) => {
      const listen = ({ data }: MessageEvent<OfflineMessage>): void => {
        if (data.kind !== 'taken') return;
        this.container.removeEventListener('message', listen);
        taken();
      };
      this.container.addEventListener('message', listen);
      this.ask({ kind: 'take newest' });
    });
  }

  private ask(message: OfflineMessage): void {
    (this.registration?.active ?? this.container.controller)?.postMessage(message);
  }

  private hear(message: OfflineMessage): void {
    if (message.kind === 'versions') {
      this.ready = true;
      this.newer = this.newer || message.inUse !== message.newest;
    }
    if (message.kind === 'taken') this.newer = true;
    for (const listener of this.listeners) listener();
  }
}

/**
 * Keeps the page for use offline once it has loaded, so that a first visit is not made to wait. `null` where
 * that is not offered: see `lostHere`.
 */
export function startOffline(place: Window, now: () => number): OfflineCopy | null {
  if (lostHere(place) !== null) return null;
  const copy = new OfflineCopy(place.navigator.serviceWorker, now);
  const { document } = place;
  const start = (): void => void copy.start();
  if (document.readyState === 'complete') start();
  else place.addEventListener('load', start, { once: true });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void copy.lookAgain();
  });
  return copy;
}
