import type { Problem } from '../../units/outcome.ts';
import type { Answer, FromWorker, MessageKind, Progress, Question, ToWorker } from '../../worker/messages.ts';

/** The page's end of a worker: what `Worker` offers and a test can stand in for. */
export interface WorkerEnd {
  postMessage(message: ToWorker): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

/** The worker gave neither an answer nor a sign of life in time, or it died; it has been stopped. */
export class WorkerLost extends Error {
  override readonly name = 'WorkerLost';
}

/** The worker answered that something cannot be done, and what stands against it. */
export class WorkerRefusal extends Error {
  override readonly name = 'WorkerRefusal';
  readonly problem: Problem;

  constructor(reason: string, problem: Problem) {
    super(reason);
    this.problem = problem;
  }
}

interface Waiting {
  readonly kind: MessageKind;
  readonly settle: (message: FromWorker) => void;
  readonly fail: (error: Error) => void;
  readonly progress: ((progress: Progress) => void) | undefined;
  readonly patience: number;
  clock: ReturnType<typeof setTimeout>;
}

export interface CallOptions {
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: Progress) => void) | undefined;
  /** Longest silence about this call, ms; progress starts it anew. */
  readonly patience: number;
}

/** Questions to one worker and their answers; ends for good with the first call that outlasts its patience. */
export class WorkerCalls {
  readonly #worker: WorkerEnd;
  readonly #waiting = new Map<number, Waiting>();
  #last = 0;
  #lost: WorkerLost | null = null;

  constructor(worker: WorkerEnd) {
    this.#worker = worker;
    worker.onmessage = (event) => this.#receive(event.data);
    worker.onerror = (event) => this.stop(new WorkerLost(`the worker failed: ${event.message}`));
  }

  get lost(): boolean {
    return this.#lost !== null;
  }

  ask<K extends MessageKind>(kind: K, question: Question<K>, options: CallOptions): Promise<Answer<K>> {
    if (this.#lost) return Promise.reject(this.#lost);
    if (options.signal?.aborted) return Promise.reject(abortReason(options.signal));
    this.#last += 1;
    const id = this.#last;
    return new Promise<Answer<K>>((resolve, reject) => {
      const cancel = () => this.#cancel(id, options.signal);
      options.signal?.addEventListener('abort', cancel, { once: true });
      const done = () => options.signal?.removeEventListener('abort', cancel);
      this.#waiting.set(id, {
        kind,
        progress: options.onProgress,
        patience: options.patience,
        clock: this.#startClock(id, options.patience),
        settle: (message) => {
          done();
          // The worker answers each question with the kind that messages.ts pairs with it.
          if (message.kind === 'answer') resolve(message.answer as Answer<K>);
          else reject(errorOf(message, kind));
        },
        fail: (error) => {
          done();
          reject(error);
        },
      });
      this.#worker.postMessage({ id, kind, question } as ToWorker);
    });
  }

  /** Stops the worker; whatever still waits fails with `error`. */
  stop(error: WorkerLost = new WorkerLost('the worker was stopped')): void {
    if (this.#lost) return;
    this.#lost = error;
    this.#worker.terminate();
    for (const waiting of this.#waiting.values()) {
      clearTimeout(waiting.clock);
      waiting.fail(error);
    }
    this.#waiting.clear();
  }

  #startClock(id: number, patience: number): ReturnType<typeof setTimeout> {
    return setTimeout(() => {
      const kind = this.#waiting.get(id)?.kind ?? 'a question';
      this.stop(new WorkerLost(`${kind} gave no sign of life for ${patience / 1000} s`));
    }, patience);
  }

  #receive(message: FromWorker): void {
    const waiting = this.#waiting.get(message.id);
    if (!waiting) return;
    clearTimeout(waiting.clock);
    if (message.kind === 'progress') {
      waiting.clock = this.#startClock(message.id, waiting.patience);
      waiting.progress?.(message.progress);
      return;
    }
    this.#waiting.delete(message.id);
    waiting.settle(message);
  }

  /** The caller is let go at once; the clock runs on, so that a worker stuck on a cancelled job is still noticed. */
  #cancel(id: number, signal: AbortSignal | undefined): void {
    const waiting = this.#waiting.get(id);
    if (!waiting) return;
    this.#worker.postMessage({ id, kind: 'cancel' });
    waiting.fail(abortReason(signal));
  }
}

function errorOf(message: FromWorker, kind: MessageKind): Error {
  if (message.kind !== 'failed') return new Error(`${kind} was cancelled`);
  return message.problem ? new WorkerRefusal(message.reason, message.problem) : new Error(message.reason);
}

function abortReason(signal: AbortSignal | undefined): Error {
  return signal?.reason instanceof Error ? signal.reason : new DOMException('cancelled', 'AbortError');
}
