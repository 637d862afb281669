import type { Answer, MessageKind, OpenResult, Progress, Question } from '../../worker/messages.ts';
import { WorkerCalls, type WorkerEnd, WorkerLost } from './worker-calls.ts';

type OpenKind = 'open-terrain' | 'open-picture';
type OpenAnswer<K extends OpenKind> = Answer<K> & OpenResult<unknown>;

export type Spawn = () => WorkerEnd;

/** Silence about an opening after which the worker counts as hung, ms. */
const OPEN_PATIENCE = 30_000;
/** Silence about any other question, ms; tiles may stand in line behind each other. */
const CALL_PATIENCE = 30_000;

let opened = 0;

/** Starts the worker that serves terrain and pictures. */
export function spawnWorker(): WorkerEnd {
  return new Worker(new URL('../../worker/ground-worker.ts', import.meta.url), { type: 'module', name: 'ground' });
}

/**
 * One worker bound to the files it opened. When it hangs it is stopped, the calls that waited fail with `WorkerLost`,
 * and the next call starts a new worker and opens the same files again.
 */
export class WorkerLink<K extends OpenKind> {
  readonly key: string;
  readonly #kind: K;
  readonly #question: Question<K>;
  readonly #spawn: Spawn;
  #calls: WorkerCalls;
  #ready: Promise<unknown> | null = null;
  #closed = false;

  constructor(kind: K, question: Question<K>, spawn: Spawn) {
    opened += 1;
    this.key = `${kind}-${opened}`;
    this.#kind = kind;
    this.#question = question;
    this.#spawn = spawn;
    this.#calls = new WorkerCalls(spawn());
  }

  /** Opens the files; a hung or dead worker is a refusal, not an exception. */
  async open(signal?: AbortSignal, onProgress?: (progress: Progress) => void): Promise<OpenAnswer<K>> {
    try {
      const answer = await this.#calls.ask(this.#kind, this.#question, { signal, onProgress, patience: OPEN_PATIENCE });
      this.#ready = Promise.resolve();
      return answer as OpenAnswer<K>;
    } catch (error) {
      this.close();
      if (signal?.aborted) throw error;
      return { kind: 'refused', problems: [readerProblem(error, this.#question.files)] } as OpenAnswer<K>;
    }
  }

  async ask<Q extends MessageKind>(
    kind: Q,
    question: Question<Q>,
    signal?: AbortSignal,
    onProgress?: (progress: Progress) => void,
  ): Promise<Answer<Q>> {
    if (this.#closed) throw new WorkerLost('the file was closed');
    if (this.#calls.lost) this.#restart();
    await this.#ready;
    return this.#calls.ask(kind, question, { signal, onProgress, patience: CALL_PATIENCE });
  }

  close(): void {
    this.#closed = true;
    this.#calls.stop();
  }

  #restart(): void {
    this.#calls = new WorkerCalls(this.#spawn());
    this.#ready = this.#calls.ask(this.#kind, this.#question, { patience: OPEN_PATIENCE });
    // Each caller sees this failure where it awaits; nobody else needs to.
    this.#ready.catch(() => undefined);
  }
}

function readerProblem(
  error: unknown,
  files: readonly { readonly name: string }[],
): {
  code: string;
  path: string;
  found: string;
  expected: string;
} {
  return {
    code: error instanceof WorkerLost ? 'reader-hung' : 'reader-failed',
    path: files.map((file) => file.name).join(', '),
    found: error instanceof Error ? error.message : String(error),
    expected: 'a file that can be read',
  };
}
