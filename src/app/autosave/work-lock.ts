const PREFIX = 'rillwright work ';

/** How long a tab that is asked for its work has to let it go, ms; a sleeping tab does not answer. */
const PATIENCE_MS = 1500;

/** Says to every tab which work this tab has open. Without locks (a page that is not secure) nobody is told. */
export class WorkLock {
  readonly #locks: LockManager | undefined;
  #id: string | null = null;
  #release: () => void = () => undefined;

  constructor(locks: LockManager | undefined) {
    this.#locks = locks;
  }

  /** Holds a work from now on instead of the one before; does nothing for the one that is held. */
  hold(id: string): Promise<void> {
    if (this.#id === id) return Promise.resolve();
    return this.#take(id, { ifAvailable: true });
  }

  /** Waits a while for a work that another tab holds, then takes it. */
  async takeOver(id: string): Promise<void> {
    try {
      await this.#take(id, { signal: AbortSignal.timeout(PATIENCE_MS) });
    } catch {
      await this.#take(id, { steal: true });
    }
  }

  release(): void {
    this.#id = null;
    this.#release();
    this.#release = () => undefined;
  }

  /** The works that tabs have open, this one's among them. */
  async held(): Promise<ReadonlySet<string>> {
    const { held = [] } = (await this.#locks?.query()) ?? {};
    return new Set(held.flatMap(({ name }) => (name?.startsWith(PREFIX) ? [name.slice(PREFIX.length)] : [])));
  }

  #take(id: string, options: LockOptions): Promise<void> {
    this.release();
    this.#id = id;
    const locks = this.#locks;
    if (locks === undefined) return Promise.resolve();
    return new Promise((resolve, reject) => {
      const whileHeld = () =>
        new Promise<void>((release) => {
          this.#release = release;
          resolve();
        });
      locks.request(PREFIX + id, options, (lock) => (lock === null ? resolve() : whileHeld())).catch(reject);
    });
  }
}
