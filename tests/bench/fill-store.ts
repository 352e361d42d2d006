import { isFault } from '../../shared/value.ts';
import { openStore } from '../../src/storage/store.ts';
import { seasonNotebook } from './season-notebook.ts';

/** Puts a generated notebook where the page keeps its own; gives back its id. */
async function fillStore(animals: number, days: number, countedLast: number): Promise<string> {
  const store = await openStore();
  if (isFault(store)) throw new Error(store.sentence);
  const notebook = seasonNotebook(animals, days, countedLast);
  await store.add(notebook);
  return notebook.id;
}

Object.assign(globalThis, { fillStore });
