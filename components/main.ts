import type { Engine } from '../shared/derived.ts';
import type { Served } from '../shared/served.ts';
import { isFault } from '../shared/value.ts';
import { toShown, toStored } from '../src/engine/stored-formula.ts';
import { applyEdit } from '../src/notebook/apply-edit.ts';
import { demoId, demoNotebook } from '../src/notebook/demo.ts';
import { fromTemplate } from '../src/notebook/from-template.ts';
import { nextSeason } from '../src/notebook/next-season.ts';
import { readFileText } from '../src/notebook/read-file.ts';
import { setsOf } from '../src/notebook/record-sets.ts';
import { toTemplate } from '../src/notebook/to-template.ts';
import { Clock } from '../src/session/clock.ts';
import type { Session } from '../src/session/session.ts';
import { randomId } from '../src/storage/random-id.ts';
import { openStore } from '../src/storage/store.ts';
import { changeLanguage } from './change-language.ts';
import { localDate } from './changed-words.ts';
import { MemoryShelf } from './memory-shelf.ts';
import { MemoryTemplates } from './memory-templates.ts';
import { canShareNotebooks, saveNotebook, shareNotebook } from './notebook-files.ts';
import { isBuilt, lostHere, startOffline } from './offline.ts';
import { promiseWords } from './promise-words.ts';
import { SdApp } from './sd-app.ts';
import type { Notice, Services } from './services.ts';
import { SessionKeeper } from './session-keeper.ts';
import { StoreShelf } from './store-shelf.ts';
import { templates } from './templates.ts';
import { adoptTheme } from './theme.ts';
import { decimalMarkOf } from '../src/text/decimal-text.ts';
import { say, spokenLocale } from '../src/text/say.ts';

const now = (): number => Date.now();
const clock = new Clock(randomId(), now);

adoptTheme(document);
const app = new SdApp();
document.body.append(app);

const store = await openStore();
const memory = new MemoryShelf(now, randomId);
const listeners = new Set<() => void>();
let general: readonly Notice[] = [];

function tellAll(): void {
  for (const listener of listeners) listener();
}

if (isFault(store)) {
  general = [{ kind: 'memory only', sentence: store.sentence }];
} else {
  store.persistence.subscribe(tellAll);
}

// Only the built page can be kept for use without the network; a page in the making must not be.
const lost = isBuilt ? lostHere(window) : null;
if (lost !== null) general = [...general, { kind: 'plain address', sentence: lost }];
const offline = isBuilt ? startOffline(window, now) : null;

const shelf = isFault(store) ? memory : new StoreShelf(store, memory);
const createEngine = async (): Promise<Engine> =>
  (await import('../src/engine/engine.ts')).createEngine();
const keeper = new SessionKeeper({ shelf, now, createEngine, tell: tellAll });

const services: Services = {
  shelf,
  templates,
  ownTemplates: isFault(store) ? new MemoryTemplates() : store.templates,
  checkTemplate: async (template) =>
    (await import('../src/engine/check-template.ts')).checkTemplate(template),
  now,
  today: () => localDate(new Date()),
  newId: randomId,
  startNotebook: (template, title, place) =>
    fromTemplate(template, {
      id: randomId(),
      title,
      ...(place === '' ? {} : { place }),
      decimalMark: decimalMarkOf(spokenLocale()),
      stamp: clock.next(),
      bind: toStored,
    }),
  startSeason: (old, template, { title, place, from }) =>
    nextSeason(
      old,
      template,
      {
        id: randomId(),
        title,
        ...(place === '' ? {} : { place }),
        stamp: clock.next(),
        bind: toStored,
      },
      from,
    ),
  templateOf: (notebook, name, purpose) =>
    toTemplate(notebook, { id: randomId(), name, purpose }, toShown),
  copyOf: (notebook, title) => {
    for (const [device, [ms, counter]] of Object.entries(notebook.seen))
      clock.saw([ms, counter, device]);
    const sets = setsOf('about', 'notebook', { title });
    const edit = { label: say('the title'), source: 'typed', sets } as const;
    return { ...applyEdit(notebook, edit, clock.next()).notebook, id: randomId() };
  },
  demo: {
    id: demoId,
    make: async () => {
      const summer = await templates[0]?.load();
      if (!summer) throw new Error('The demo is made from the first template.');
      // Written by nobody here, and long before anything a person types.
      return demoNotebook(summer, [0, 0, demoId], toStored);
    },
  },
  readFile: readFileText,
  openSession: (id) => keeper.open(id),
  openAgain: (session) => keeper.openAgain(session),
  endSession: (session) => keeper.end(session),
  subscribeAgain: (listener) => keeper.subscribe(listener),
  saveToFile: async (session) => {
    const { notebook } = session;
    saveNotebook(notebook, localDate(new Date()));
    await keeper.savedToFile(session, notebook);
  },
  ...(canShareNotebooks(navigator)
    ? {
        shareFile: async (session: Session) => {
          const { notebook } = session;
          const isShared = await shareNotebook(navigator, notebook, localDate(new Date()));
          if (isShared) await keeper.savedToFile(session, notebook);
        },
      }
    : {}),
  noteInFile: (session) => keeper.savedToFile(session, session.notebook),
  notInFile: (session) => keeper.notInFile(session),
  notices: () => [...general, ...keeper.notices],
  promise: () => (isFault(store) ? '' : promiseWords(store.persistence.answer)),
  subscribeNotices: (listener) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
  changeLanguage: (code) =>
    changeLanguage(code, {
      drawer: () => localStorage,
      settled: async () => (await keeper.settled()) && (await isAllKept()),
      reload: () => location.reload(),
    }),
  ...(offline ? { offline } : {}),
};

/** Whether no notebook would be lost with the page. */
async function isAllKept(): Promise<boolean> {
  return (await memory.list()).every(({ isDeleted }) => isDeleted);
}

/** A browser keeps notebooks by address: at another one than usual the person is told so. */
async function lookAtAddress(): Promise<void> {
  const answer = await fetch('./served.json').catch(() => undefined);
  const served = answer?.ok
    ? await (answer.json() as Promise<Served>).catch(() => undefined)
    : undefined;
  if (!served?.usualPortTaken) return;
  const sentence = say(
    'Another program holds the usual address. Notebooks kept at {address} are not visible here; to see them, stop that program and start again.',
    { address: served.usualAddress },
  );
  general = [...general, { kind: 'other address', sentence }];
  tellAll();
}

app.services = services;
void lookAtAddress();
