import { createContext } from '@lit/context';
import type { Notebook } from '../shared/notebook.ts';
import type { Template } from '../shared/template.ts';
import type { Fault } from '../shared/value.ts';
import type { FileRead } from '../src/notebook/read-file.ts';
import type { Journal, Session } from '../src/session/session.ts';
import type { Claim } from '../src/storage/tabs.ts';
import type { LanguageChange } from './change-language.ts';
import type { OfflineCopy } from './offline.ts';
import type { TemplateLine } from './templates.ts';

/** One line of the list of notebooks. */
export interface ShelfEntry {
  readonly id: string;
  readonly title: string;
  readonly place: string;
  /** Milliseconds since 1970; null where it is not known. */
  readonly changedAt: number | null;
  /** Deleted, and kept until it is deleted for good. */
  readonly isDeleted: boolean;
  /** Counts that are in no file yet; absent where that is not known. */
  readonly countsNotInFile?: number;
}

/** A notebook taken from the shelf to be written in. */
export interface OpenedNotebook {
  readonly notebook: Notebook;
  /** The device that stamps of edits made here name. */
  readonly writer: string;
  /** Where edits are kept; none where another tab writes. */
  readonly journal?: Journal;
  /** This tab's claim among the tabs of this browser; none where there is only this one. */
  readonly claim?: Claim;
  /** What a person has to know about it, like damage found on opening. */
  readonly notices: readonly Notice[];
  /** How many counts are in no file yet; absent where that is not known. */
  notInFile?(): number;
  /** Notes that the notebook, as it is in this value, is now in a file too. */
  savedToFile(notebook: Notebook): Promise<void>;
  /** Lets it go, once everything handed to the journal is settled. */
  close(): void;
}

/**
 * Where notebooks are kept: a browser's store, or this page's memory while there is none. Reading
 * gives values or faults; what cannot be written rejects with a sentence.
 */
export interface Shelf {
  /** Last used first, deleted ones among them. */
  list(): Promise<readonly ShelfEntry[]>;
  /** Keeps a whole notebook, a new one or one put back. */
  add(notebook: Notebook): Promise<void>;
  /** Reads without taking hold of it. */
  read(id: string): Promise<Notebook | Fault>;
  /** Opens for writing, or, where another tab writes, for following it; under a claim held already. */
  open(id: string, claim?: Claim): Promise<OpenedNotebook | Fault>;
  rename(id: string, title: string): Promise<Fault | null>;
  copy(id: string, title: string): Promise<string | Fault>;
  /** Deletes from the list; kept until `purge`. */
  remove(id: string): Promise<void>;
  restore(id: string): Promise<void>;
  purge(id: string): Promise<void>;
}

/** Something a person has to know about where the notebook is kept. */
export interface Notice {
  readonly kind:
    'memory only' | 'not kept' | 'second tab' | 'other address' | 'put aside' | 'plain address';
  readonly sentence: string;
  /** It says why what was just asked for was not done. */
  readonly isRefusal?: boolean;
  /** A thing to do about it, if there is one. */
  readonly action?: { readonly label: string; readonly run: () => void | Promise<void> };
}

/** The templates a person made or was given: in this browser, or in this page while there is no store. */
export interface TemplateShelf {
  list(): Promise<readonly Template[]>;
  /** Rejects with a sentence where the browser takes nothing more. */
  keep(template: Template): Promise<void>;
  remove(id: string): Promise<void>;
}

/**
 * What the page asks of the world outside it: the shelf, the clock, new ids, sessions. Put together
 * once, at the composition root, so that a test can hand in its own.
 */
export interface Services {
  readonly shelf: Shelf;
  readonly templates: readonly TemplateLine[];
  readonly ownTemplates: TemplateShelf;
  /** What is wrong in a template that came from elsewhere, or null. */
  readonly checkTemplate: (template: Template) => Promise<Fault | null>;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Today's date where the person is, `2026-05-03`. */
  readonly today: () => string;
  readonly newId: () => string;
  readonly startNotebook: (template: Template, title: string, place: string) => Notebook;
  /** A new notebook with the animals, groups and products of an old one, from a date on. */
  readonly startSeason: (
    old: Notebook,
    template: Template,
    season: { readonly title: string; readonly place: string; readonly from: string },
  ) => Notebook;
  /** A notebook's layout as a template, under a new id. */
  readonly templateOf: (notebook: Notebook, name: string, purpose: string) => Template;
  /** The same notebook once more, as one of its own. */
  readonly copyOf: (notebook: Notebook, title: string) => Notebook;
  readonly demo: { readonly id: string; readonly make: () => Promise<Notebook> };
  readonly readFile: (text: string) => FileRead | Fault;
  /** Takes a notebook from the shelf; its edits are kept there. Ended by `endSession`. */
  readonly openSession: (id: string) => Promise<Session | Fault>;
  /** Opens the same notebook again in place of a session that asked for it. */
  readonly openAgain: (session: Session) => Promise<Session | Fault>;
  readonly endSession: (session: Session) => void;
  /** Heard with a session that is to be opened again: this tab now writes it, or no longer does. */
  readonly subscribeAgain: (listener: (session: Session) => void) => () => void;
  /** Hands the open notebook to the browser as a file to be saved. */
  readonly saveToFile: (session: Session) => Promise<void>;
  /** Hands it to the device's share sheet; absent where there is none that takes such a file. */
  readonly shareFile?: (session: Session) => Promise<void>;
  /** Notes that the notebook came from a file just now, so that all of it is in one. */
  readonly noteInFile: (session: Session) => Promise<void>;
  /** How many of its counts are in no file yet. */
  readonly notInFile: (session: Session) => number;
  /** What to tell about keeping; heard again whenever it changes. */
  readonly notices: () => readonly Notice[];
  /** Whether the browser promised to keep what is here, in one sentence; '' before it was asked. */
  readonly promise: () => string;
  readonly subscribeNotices: (listener: () => void) => () => void;
  /** Loads the page anew in a language, once everything typed is on disk; null for the browser's own. */
  readonly changeLanguage: (code: string | null) => Promise<LanguageChange>;
  /** The copy kept for use without the network, and newer versions of it; absent where there is none. */
  readonly offline?: OfflineCopy;
}

export const servicesContext = createContext<Services | undefined>(Symbol('services'));
