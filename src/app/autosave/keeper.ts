import { writeFiles, writeWork } from './kept-plans.ts';
import type { KeepStore, KeptWork } from './kept-work.ts';

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

/** Writes the newest state of a tab's work, one write at a time; what comes meanwhile replaces what still waits. */
export class Keeper {
  readonly #store: KeepStore;
  readonly #owner: string;
  readonly #tell: (state: KeepingState) => void;
  readonly #filesOf = new Map<string, FilesToKeep>();
  readonly #lost = new Set<string>();
  #next: Job | null = null;
  #writing: Promise<void> | null = null;

  constructor(store: KeepStore, owner: string, tell: (state: KeepingState) => void) {
    this.#store = store;
    this.#owner = owner;
    this.#tell = tell;
  }

  keep(work: KeptWork, files: FilesToKeep | null = null): void {
    if (this.#lost.has(work.id)) return;
    this.#next = { work, files };
    this.#writing ??= this.#write();
  }

  /** Resolves once everything that was handed over is written or has failed. */
  async settled(): Promise<void> {
    while (this.#writing !== null) await this.#writing;
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

  async #writeOne({ work, files }: Job): Promise<void> {
    try {
      const result = await writeWork(this.#store, work, this.#owner);
      if (result === 'taken') return this.giveUp(work);
      if (files !== null && this.#filesOf.get(work.id) !== files) await this.#writeFiles(work.id, files);
      if (!this.#lost.has(work.id)) this.#tell({ kind: 'kept', work });
    } catch (error) {
      this.#tell({ kind: 'failed', reason: reasonOf(error) });
    }
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

function reasonOf(error: unknown): string {
  if (error instanceof Error && error.name === 'QuotaExceededError') return 'there is no room left';
  return error instanceof Error && error.message !== '' ? error.message : String(error);
}
