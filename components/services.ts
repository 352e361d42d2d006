import { createContext } from '@lit/context';
import type { Edit } from '../shared/edit.ts';
import type { Notebook } from '../shared/notebook.ts';
import type { Template } from '../shared/template.ts';
import type { Fault } from '../shared/value.ts';
import type { Session } from '../src/session/session.ts';

/** One line of the list of notebooks. */
export interface ShelfEntry {
  readonly id: string;
  readonly title: string;
  readonly place: string;
  /** Milliseconds since 1970; null where it is not known. */
  readonly changedAt: number | null;
}

/** Where notebooks are kept: a browser's store, or this page's memory while there is none. */
export interface Shelf {
  /** Newest first. */
  list(): Promise<readonly ShelfEntry[]>;
  /** Keeps a whole notebook, a new one or one put back. */
  add(notebook: Notebook): Promise<void>;
  load(id: string): Promise<Notebook | Fault>;
  remove(id: string): Promise<void>;
}

/** Something a person has to know about where the notebook is kept. */
export interface Notice {
  readonly kind: 'memory only' | 'not kept' | 'second tab' | 'other address' | 'put aside';
  readonly sentence: string;
  /** A thing to do about it, if there is one. */
  readonly action?: { readonly label: string; readonly run: () => void | Promise<void> };
}

/**
 * What the page asks of the world outside it: the shelf, the clock, new ids, sessions. Put together
 * once, at the composition root, so that a test can hand in its own.
 */
export interface Services {
  readonly shelf: Shelf;
  readonly templates: readonly Template[];
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Today's date where the person is, `2026-05-03`. */
  readonly today: () => string;
  readonly newId: () => string;
  readonly startNotebook: (template: Template, title: string, place: string) => Notebook;
  /** A notebook that is not open, with one edit done to it. */
  readonly withEdit: (notebook: Notebook, edit: Edit) => Notebook;
  /** The same notebook under another id and title. */
  readonly copyNotebook: (notebook: Notebook, title: string) => Notebook;
  readonly demo: { readonly id: string; readonly make: () => Promise<Notebook> };
  readonly readFile: (text: string) => Promise<Notebook | Fault>;
  /** A session for an open notebook, its edits kept on the shelf; closed by `endSession`. */
  readonly startSession: (notebook: Notebook) => Promise<Session>;
  readonly endSession: (session: Session) => void;
  /** What to tell about keeping; heard again whenever it changes. */
  readonly notices: () => readonly Notice[];
  readonly subscribeNotices: (listener: () => void) => () => void;
}

export const servicesContext = createContext<Services | undefined>(Symbol('services'));
