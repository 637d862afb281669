import type { KeepAccess, KeepStore } from '../../../src/app/autosave/kept-work.ts';

/** The page died: whatever was asked of the store afterwards never happened. */
export class Killed extends Error {}

/**
 * A store whose writes count one by one, as if there were no transactions: the worst that a browser could do. It dies at the
 * write it is told to, and what was written before stays.
 */
export class StoreInMemory implements KeepStore {
  readonly values: Map<string, unknown>;
  writes = 0;
  #dieAt: number;

  constructor(values: ReadonlyMap<string, unknown> = new Map(), dieAt = Number.POSITIVE_INFINITY) {
    this.values = new Map(values);
    this.#dieAt = dieAt;
  }

  transact<T>(run: (access: KeepAccess) => Promise<T>): Promise<T> {
    return run({
      get: async (key) => structuredClone(this.values.get(key)),
      keys: async () => [...this.values.keys()].sort(),
      put: async (key, value) => this.#write(() => this.values.set(key, structuredClone(value))),
      delete: async (key) => this.#write(() => this.values.delete(key)),
    });
  }

  #write(write: () => void): void {
    if (this.writes >= this.#dieAt) throw new Killed('the page was killed');
    this.writes++;
    write();
  }
}
