import type { Json } from '../../shared/cell.ts';
import type { SetTo, Transaction } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { openStore, type Opened, type Store, type StoreOptions } from '../../src/storage/store.ts';

export const day = '2026-05-03';

export function counted(value: number): Json {
  return { kind: 'number', text: String(value), value };
}

/** A notebook with so many animals, a count column and one day, and nothing counted yet. */
export function herd(id: string, animals: number, days: readonly string[] = [day]): Notebook {
  const sets: SetTo[] = [
    { path: ['about', 'notebook', 'title'], value: 'Hill flock' },
    { path: ['columns', 'c1', 'key'], value: 'chamber1' },
    { path: ['columns', 'c1', 'kind'], value: 'count' },
    ...days.map((date) => ({ path: ['days', date, 'date'] as const, value: date })),
  ];
  for (let i = 1; i <= animals; i += 1)
    sets.push({ path: ['animals', `a${i}`, 'tag'], value: `K-${i}` });
  const edit = { label: 'a start', source: 'template', sets } as const;
  return applyEdit(emptyNotebook(id), edit, [1000, 0, 'start']).notebook;
}

/** The value, or the fault's sentence as the failure of the test. */
export function sound<T>(result: T | Fault): T {
  if (isFault(result)) throw new Error(result.sentence);
  return result;
}

let databases = 0;

/** A store in a database of its own, whose journal is folded only when a test says so. */
export async function freshStore(
  options: StoreOptions = {},
): Promise<{ readonly store: Store; readonly name: string }> {
  databases += 1;
  const name = options.name ?? `test ${databases} ${Math.random()}`;
  return { store: sound(await openStore({ compactAfter: 1e9, ...options, name })), name };
}

/** A person typing into an opened notebook. */
export class Typist {
  notebook: Notebook;
  private ms = 2000;

  constructor(private readonly opened: Opened) {
    this.notebook = opened.notebook;
  }

  edit(...sets: SetTo[]): { readonly transaction: Transaction; readonly kept: Promise<void> } {
    this.ms += 1;
    const stamp = [this.ms, 0, this.opened.writer] as const;
    const edit = { label: 'a count', source: 'typed', sets } as const;
    const { notebook, changes } = applyEdit(this.notebook, edit, stamp, 'days in place');
    this.notebook = notebook;
    const transaction = { label: edit.label, source: edit.source, stamp, changes };
    return { transaction, kept: this.opened.journal.append(transaction, notebook) };
  }

  async count(row: string, value: number, on = day): Promise<void> {
    await this.edit({ path: ['readings', on, row, 'c1'], value: counted(value) }).kept;
  }
}

/** Opens the raw store behind a name, to look at it or to damage it. */
export function raw<T>(
  name: string,
  mode: IDBTransactionMode,
  work: (store: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(name);
    opening.onsuccess = () => {
      const database = opening.result;
      const request = work(database.transaction('kept', mode).objectStore('kept'));
      request.transaction!.oncomplete = () => {
        database.close();
        resolve(request.result);
      };
      request.onerror = () => reject(new Error('the raw store failed'));
    };
    opening.onerror = () => reject(new Error('the raw store did not open'));
  });
}

/** The keys kept, as texts like `edit n 3`. */
export async function rawKeys(name: string, kind = ''): Promise<string[]> {
  const keys = await raw(name, 'readonly', (store) => store.getAllKeys());
  return keys.map((key) => (key as unknown[]).join(' ')).filter((key) => key.startsWith(kind));
}
