import type { Engine } from '../shared/derived.ts';
import type { Notebook } from '../shared/notebook.ts';
import { isFault, type Fault } from '../shared/value.ts';
import { Clock } from '../src/session/clock.ts';
import { Session } from '../src/session/session.ts';
import { FollowingSession } from './following-session.ts';
import type { Notice, OpenedNotebook, Shelf } from './services.ts';
import { written } from './written.ts';
import { say } from '../src/text/say.ts';

/** What an open session stands on, and how to stop hearing of it. */
interface Open {
  readonly taken: OpenedNotebook;
  readonly stop: () => void;
}

/** What a keeper is given from outside. */
export interface Keeping {
  readonly shelf: Shelf;
  readonly now: () => number;
  /** Fetches the engine, by far the largest part of the program, when a notebook is first opened. */
  readonly createEngine: () => Promise<Engine>;
  /** Heard when what there is to tell has changed. */
  readonly tell: () => void;
}

/** Pause before what could not be kept is tried again, milliseconds. */
const retryPause = 10_000;

/** While something typed is in this page alone, tries again and again to keep it. */
function savingAgain(session: Session): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const stop = session.subscribeSaved(() => {
    clearTimeout(timer);
    if (session.saved.state === 'memory') timer = setTimeout(() => session.saveAgain(), retryPause);
  });
  return () => {
    clearTimeout(timer);
    stop();
  };
}

/**
 * Opens sessions on notebooks of the shelf, and knows of each what it stands on: a journal where this
 * tab writes, another tab's edits where it follows.
 */
export class SessionKeeper {
  private readonly opened = new WeakMap<Session, Open>();
  private readonly listeners = new Set<(session: Session) => void>();
  private told: readonly Notice[] = [];
  private current: Session | undefined;

  constructor(private readonly keeping: Keeping) {}

  /** What there is to know about the notebook open now. */
  get notices(): readonly Notice[] {
    return this.told;
  }

  /** Heard with a session that is to be opened again, since this tab now writes, or no longer does. */
  subscribe(listener: (session: Session) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  async open(id: string): Promise<Session | Fault> {
    const engine = await this.keeping.createEngine();
    const taken = await this.keeping.shelf.open(id);
    return isFault(taken) ? taken : this.begin(taken, engine);
  }

  /** Opens the same notebook in place of a session, under the claim that this tab has on it. */
  async openAgain(session: Session): Promise<Session | Fault> {
    const former = this.opened.get(session);
    former?.stop();
    const engine = await this.keeping.createEngine();
    const taken = await this.keeping.shelf.open(session.notebook.id, former?.taken.claim);
    return isFault(taken) ? taken : this.begin(taken, engine);
  }

  end(session: Session): void {
    const open = this.opened.get(session);
    open?.stop();
    open?.taken.close();
    if (session === this.current) this.current = undefined;
    this.tellOf([]);
  }

  /** Notes that the notebook, as it was in this value, is in a file. */
  async savedToFile(session: Session, notebook: Notebook): Promise<void> {
    await this.opened.get(session)?.taken.savedToFile(notebook);
    this.keeping.tell();
  }

  /** How many counts of the notebook are in no file yet; 0 where that is not known. */
  notInFile(session: Session): number {
    return this.opened.get(session)?.taken.notInFile?.() ?? 0;
  }

  /** Waits until what was typed in the open notebook is written; false where it stays in this page alone. */
  async settled(): Promise<boolean> {
    return this.current === undefined || written(this.current);
  }

  private begin(taken: OpenedNotebook, engine: Engine): Session {
    const { notebook, writer, claim, notices } = taken;
    const { now } = this.keeping;
    const clock = new Clock(writer, now);
    const parts = { engine, clock, now };
    if (claim?.role === 'follower') {
      const session = new FollowingSession(notebook, parts, () =>
        this.tellOf([following(claim, 'refused'), ...notices]),
      );
      const stops = [
        claim.onChange(({ label, source, changes, seen }) => {
          void session.takeIn(label, source, changes, seen);
        }),
        claim.onLostTrack(() => this.wantAgain(session)),
      ];
      this.note(session, taken, [following(claim, 'open'), ...notices], stops);
      return session;
    }
    const session = new Session(notebook, { ...parts, journal: taken.journal });
    this.note(session, taken, notices, [savingAgain(session)]);
    return session;
  }

  private note(
    session: Session,
    taken: OpenedNotebook,
    notices: readonly Notice[],
    stops: readonly (() => void)[] = [],
  ): void {
    const stopRole = taken.claim?.onRole(() => this.wantAgain(session));
    const stop = (): void => [...stops, stopRole].forEach((one) => one?.());
    this.opened.set(session, { taken, stop });
    this.current = session;
    this.tellOf(notices);
  }

  private wantAgain(session: Session): void {
    for (const listener of this.listeners) listener(session);
  }

  private tellOf(notices: readonly Notice[]): void {
    this.told = notices;
    this.keeping.tell();
  }
}

function following(claim: { takeOver(): Promise<void> }, state: 'open' | 'refused'): Notice {
  return {
    kind: 'second tab',
    isRefusal: state === 'refused',
    sentence:
      state === 'refused'
        ? say(
            'Nothing was changed: another tab writes this notebook, and this one only follows. To type here, take over.',
          )
        : say(
            'Another tab writes this notebook. What is typed there shows here as it comes. To type here, take over.',
          ),
    action: { label: say('Write in this tab'), run: () => claim.takeOver() },
  };
}
