import { promisifyRequest, type UseStore } from 'idb-keyval';
import type { Fault } from '../../shared/value.ts';
import { noAnswer, outdated, storageFault, StorageError } from './storage-fault.ts';

export interface OpenOptions {
  /** The name of the database; tests use one of their own. */
  readonly name?: string;
  /** Where databases are opened; tests hand in one that fails. */
  readonly factory?: IDBFactory;
  /** Milliseconds after which an unanswered opening is given up. */
  readonly giveUpAfter?: number;
}

const kept = 'kept';
const databaseVersion = 1;

/**
 * A store function for idb-keyval whose transactions are strictly durable: complete only once the
 * data are on the disk, not merely with the operating system. Transactions run in the order in which
 * they are asked for. A connection that the browser closes by itself is opened again.
 */
export async function openStrictStore(options: OpenOptions = {}): Promise<UseStore | Fault> {
  let database: IDBDatabase | null = null;
  let opening: Promise<IDBDatabase> | null = null;
  let isOutdated = false;

  const open = (): Promise<IDBDatabase> => {
    opening ??= openDatabase(options).then((opened) => {
      database = opened;
      opening = null;
      opened.onclose = () => {
        database = null;
      };
      opened.onversionchange = () => {
        isOutdated = true;
        database = null;
        opened.close();
      };
      return opened;
    });
    opening.catch(() => {
      opening = null;
    });
    return opening;
  };

  const run = <T>(
    on: IDBDatabase,
    mode: IDBTransactionMode,
    callback: (store: IDBObjectStore) => T | PromiseLike<T>,
  ): T | PromiseLike<T> =>
    callback(on.transaction(kept, mode, { durability: 'strict' }).objectStore(kept));

  try {
    await open();
  } catch (error) {
    return storageFault(error);
  }
  const use: UseStore = (mode, callback) => {
    if (isOutdated) return Promise.reject(new StorageError(outdated));
    if (!database) return open().then((opened) => run(opened, mode, callback));
    try {
      return Promise.resolve(run(database, mode, callback));
    } catch (error) {
      return Promise.reject(asError(error));
    }
  };
  return (mode, callback) =>
    use(mode, callback).catch((error: unknown) => {
      throw new StorageError(storageFault(error));
    });
}

function asError(thrown: unknown): Error {
  return thrown instanceof Error ? thrown : new Error(String(thrown));
}

function openDatabase({
  name = 'sampling-daybook',
  factory,
  giveUpAfter = 3000,
}: OpenOptions): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    // Where storing is forbidden, merely asking for it throws; in old private windows it is not there.
    const anywhere: IDBFactory | undefined = factory ?? indexedDB;
    const request = anywhere?.open(name, databaseVersion);
    if (!request) return reject(new DOMException('no store', 'InvalidStateError'));
    let isGivenUp = false;
    const timer = setTimeout(() => {
      isGivenUp = true;
      reject(new StorageError(noAnswer));
    }, giveUpAfter);
    request.onupgradeneeded = () => request.result.createObjectStore(kept);
    promisifyRequest(request).then(
      (database) => {
        clearTimeout(timer);
        if (isGivenUp) database.close();
        else resolve(database);
      },
      (error: unknown) => {
        clearTimeout(timer);
        reject(asError(error));
      },
    );
  });
}

/**
 * Writes in one transaction: all of it or nothing. Resolves once it is on the disk; rejects, as all
 * use of the store does, with an error whose message is a sentence for people.
 */
export function write(use: UseStore, work: (store: IDBObjectStore) => void): Promise<void> {
  return use('readwrite', (store) => {
    const done = completed(store.transaction);
    try {
      work(store);
    } catch (error) {
      done.catch(() => undefined);
      store.transaction.abort();
      throw error;
    }
    return done;
  });
}

/** An aborted transaction knows its reason only when it tells of the abort, not at the first error. */
function completed(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () =>
      reject(transaction.error ?? new DOMException('aborted', 'AbortError'));
  });
}
