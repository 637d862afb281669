/** What can be read and written while a transaction lasts. Nothing else may be waited for in between. */
export interface KeepAccess {
  get(key: string): Promise<unknown>;
  put(key: string, value: unknown): Promise<void>;
  delete(key: string): Promise<void>;
  keys(): Promise<readonly string[]>;
}

/** A place that outlives the page: names and values, read and written in transactions. */
export interface KeepStore {
  transact<T>(run: (access: KeepAccess) => Promise<T>): Promise<T>;
}
