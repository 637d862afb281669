import { writeFiles, writeLate, writeWhole } from './kept-plans.ts';
import type { KeepStore, KeptWork } from './kept-work.ts';
import { lateWork } from './late-work.ts';
import type { SecondCopy } from './second-copy.ts';

/** How keeping goes: nothing to keep yet, kept at a time, not kept and why, or gone on in another tab. */
export type KeepingState =
  | { readonly kind: 'idle' }
  | { readonly kind: 'kept'; readonly work: KeptWork }
  | { readonly kind: 'failed'; readonly reason: string }
  | { readonly kind: 'elsewhere'; readonly work: KeptWork };

/** What is needed to open elevation files again: handles or bytes, or nothing but their names. */
export interface FilesToKeep {
  readonly whole: unknown;
  /** The same without bytes, for a browser that has no room for them. */
  readonly bare: unknown;
}

interface Job {
  readonly work: KeptWork;
  readonly files: FilesToKeep | null;
}

/** The body of the work that was written last, and its number. */
interface Body {
  readonly work: KeptWork;
  readonly number: number;
}

export interface KeeperOptions {
  readonly store: KeepStore;
  readonly copy: Pick<SecondCopy, 'keep'> | null;
  readonly owner: string;
  readonly tell: (state: KeepingState) => void;
}

/** A store that has not answered for so long is said to hang, ms. */
const PATIENCE_MS = 4500;
/** The first pause before what failed is tried again, and the longest, ms; each is twice the one before. */
const FIRST_PAUSE_MS = 2000;
const LONGEST_PAUSE_MS = 60_000;
/** How long anything else waits for a write that is under way, ms. */
const SETTLE_MS = 1500;

export const NO_ANSWER = 'the browser’s store does not answer';

/** Writes the newest state of a tab's work, one write at a time; what comes meanwhile replaces what still waits. */
export class Keeper {
  readonly #store: KeepStore;
  readonly #copy: KeeperOptions['copy'];
  readonly #owner: string;
  readonly #tell: (state: KeepingState) => void;
  readonly #filesOf = new Map<string, FilesToKeep>();
  readonly #lost = new Set<string>();
  #body: Body | null = null;
  #next: Job | null = null;
  #hangs = false;
  #writing: Promise<void> | null = null;
  #pause = FIRST_PAUSE_MS;
  #again: ReturnType<typeof setTimeout> | undefined;

  constructor({ store, copy, owner, tell }: KeeperOptions) {
    this.#store = store;
    this.#copy = copy;
    this.#owner = owner;
    this.#tell = tell;
  }

  keep(work: KeptWork, files: FilesToKeep | null = null): void {
    if (this.#lost.has(work.id)) return;
    this.#next = { work, files };
    clearTimeout(this.#again);
    this.#writing ??= this.#write();
    // A store that hangs has the second copy to go by.
    if (this.#hangs) void this.#copy?.keep(work);
  }

  /** Resolves once everything that was handed over is written or has failed, or after a while: a store may hang. */
  async settled(): Promise<void> {
    const end = Date.now() + SETTLE_MS;
    while (this.#writing !== null && Date.now() < end) await Promise.race([this.#writing, pause(end - Date.now())]);
  }

  /** Writes no more of a work: another tab has it. */
  giveUp(work: KeptWork): void {
    this.#lost.add(work.id);
    if (this.#next?.work.id === work.id) this.#next = null;
    this.#tell({ kind: 'elsewhere', work });
  }

  /** A work that was taken over by this tab may be written again. */
  takeUp(id: string): void {
    this.#lost.delete(id);
  }

  async #write(): Promise<void> {
    for (let job = this.#taken(); job !== null; job = this.#taken()) await this.#writeOne(job);
    this.#writing = null;
  }

  #taken(): Job | null {
    const job = this.#next;
    this.#next = null;
    return job;
  }

  async #writeOne(job: Job): Promise<void> {
    const { work, files } = job;
    const hangs = setTimeout(() => {
      this.#hangs = true;
      this.#tell({ kind: 'failed', reason: NO_ANSWER });
      void this.#copy?.keep(this.#next?.work ?? work);
    }, PATIENCE_MS);
    try {
      if ((await this.#writeWork(work)) === 'taken') return this.giveUp(work);
      if (files !== null && this.#filesOf.get(work.id) !== files) await this.#writeFiles(work.id, files);
      this.#pause = FIRST_PAUSE_MS;
      if (!this.#lost.has(work.id)) this.#tell({ kind: 'kept', work });
    } catch (error) {
      this.#body = null;
      this.#tell({ kind: 'failed', reason: reasonOf(error) });
      this.#tryAgain(job);
    } finally {
      clearTimeout(hangs);
      this.#hangs = false;
    }
    await this.#copy?.keep(work);
  }

  /** Writes what has changed where that is short, else the whole. */
  async #writeWork(work: KeptWork): Promise<'kept' | 'taken'> {
    const body = this.#body;
    const late = body === null ? null : lateWork(body.work, work);
    if (body !== null && late !== null) {
      const wrote = await writeLate(this.#store, late, { id: work.id, body: body.number, owner: this.#owner });
      if (wrote !== 'gone') return wrote;
    }
    const number = await writeWhole(this.#store, work, this.#owner);
    this.#body = number === null ? null : { work, number };
    return number === null ? 'taken' : 'kept';
  }

  /** Tries again by itself what failed, unless something newer is kept before. */
  #tryAgain(job: Job): void {
    if (this.#next !== null) return;
    this.#again = setTimeout(() => this.keep(job.work, job.files), this.#pause);
    this.#pause = Math.min(2 * this.#pause, LONGEST_PAUSE_MS);
  }

  /** Files come after the plan, so that a plan is kept even where its elevation finds no room. */
  async #writeFiles(id: string, files: FilesToKeep): Promise<void> {
    try {
      await writeFiles(this.#store, id, files.whole);
    } catch {
      await writeFiles(this.#store, id, files.bare);
    }
    this.#filesOf.set(id, files);
  }
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

function reasonOf(error: unknown): string {
  if (error instanceof Error && error.name === 'QuotaExceededError') return 'there is no room left';
  if (error instanceof Error && error.name === 'VersionError')
    return 'a newer version of the planner keeps plans here; load the page again to get it';
  return error instanceof Error && error.message !== '' ? error.message : String(error);
}
