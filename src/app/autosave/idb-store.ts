import type { KeepAccess, KeepStore } from './kept-work.ts';

const TABLE = 'kept';

/** The browser's own database: a transaction is done whole or not at all, also when the page dies in it. */
export class IdbStore implements KeepStore {
  readonly #name: string;
  #database: Promise<IDBDatabase> | null = null;

  constructor(name: string) {
    this.#name = name;
  }

  async transact<T>(run: (access: KeepAccess) => Promise<T>): Promise<T> {
    const database = await this.#open();
    // Strict: what is called kept is on the disk and not only on its way there.
    const transaction = database.transaction(TABLE, 'readwrite', { durability: 'strict' });
    const done = ended(transaction);
    try {
      const result = await run(accessTo(transaction.objectStore(TABLE)));
      await done;
      return result;
    } catch (error) {
      abort(transaction);
      await done.catch(() => undefined);
      throw transaction.error ?? error;
    }
  }

  #open(): Promise<IDBDatabase> {
    this.#database ??= this.#opened();
    return this.#database;
  }

  /** A database that could not be opened, or that the browser closed, is opened anew the next time. */
  async #opened(): Promise<IDBDatabase> {
    const forget = () => {
      this.#database = null;
    };
    try {
      const request = indexedDB.open(this.#name, 1);
      request.onupgradeneeded = () => request.result.createObjectStore(TABLE);
      const database = await answered(request);
      database.onclose = forget;
      database.onversionchange = () => {
        database.close();
        forget();
      };
      return database;
    } catch (error) {
      forget();
      throw error;
    }
  }
}

function accessTo(table: IDBObjectStore): KeepAccess {
  return {
    get: (key) => answered<unknown>(table.get(key)),
    put: async (key, value) => void (await answered(table.put(value, key))),
    delete: (key) => answered(table.delete(key)),
    keys: async () => (await answered(table.getAllKeys())).map(String),
  };
}

function answered<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function ended(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error ?? new Error('the transaction was given up'));
  });
}

/** Gives a transaction up; one that has ended by itself cannot be. */
function abort(transaction: IDBTransaction): void {
  try {
    transaction.abort();
  } catch {
    // It had ended.
  }
}
