import type { Notebook } from '../shared/notebook.ts';
import type { Template } from '../shared/template.ts';
import { createEngine } from '../src/engine/engine.ts';
import { toStored } from '../src/engine/stored-formula.ts';
import { applyEdit } from '../src/notebook/apply-edit.ts';
import { demoId, demoNotebook } from '../src/notebook/demo.ts';
import { fromTemplate } from '../src/notebook/from-template.ts';
import { readNotebookText } from '../src/notebook/notebook-file.ts';
import { setsOf } from '../src/notebook/record-sets.ts';
import { Clock } from '../src/session/clock.ts';
import { Session } from '../src/session/session.ts';
import { localDate } from './changed-words.ts';
import { MemoryShelf } from './memory-shelf.ts';
import { SdApp } from './sd-app.ts';
import type { Notice, Services } from './services.ts';
import { templates } from './templates.ts';
import { adoptTheme } from './theme.ts';

const now = (): number => Date.now();
const newId = (): string => crypto.randomUUID().slice(0, 13);
const clock = new Clock(newId(), now);

const memoryOnly: Notice = {
  kind: 'memory only',
  sentence:
    'Nothing is kept on this device yet: what you type is in this page alone. Save the notebook to a file before you close it.',
};

function copyNotebook(notebook: Notebook, title: string): Notebook {
  const copy = { ...notebook, id: newId() };
  const sets = setsOf('about', 'notebook', { title, demo: false });
  return applyEdit(copy, { label: 'the name', source: 'typed', sets }, clock.next()).notebook;
}

const services: Services = {
  shelf: new MemoryShelf(now),
  templates,
  now,
  today: () => localDate(new Date()),
  newId,
  startNotebook: (template: Template, title: string, place: string) =>
    fromTemplate(template, {
      id: newId(),
      title,
      ...(place === '' ? {} : { place }),
      stamp: clock.next(),
      bind: toStored,
    }),
  withEdit: (notebook, edit) => applyEdit(notebook, edit, clock.next()).notebook,
  copyNotebook,
  demo: {
    id: demoId,
    make: async () => demoNotebook(templates[0] as Template, clock.next(), toStored),
  },
  readFile: async (text) => readNotebookText(text),
  startSession: async (notebook) => new Session(notebook, { engine: createEngine(), clock, now }),
  endSession: () => undefined,
  notices: () => [memoryOnly],
  subscribeNotices: () => () => undefined,
};

adoptTheme(document);
const app = new SdApp();
app.services = services;
document.body.append(app);
