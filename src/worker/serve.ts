import { FileRefusal } from '../terrain/bytes/file-refusal.ts';
import type { Answer, FromWorker, MessageKind, Progress, Question, ToWorker } from './messages.ts';

/** Jobs that wait their turn, the most urgent first and among equals the newest, a few at once. */
export class JobQueue {
  readonly #atOnce: number;
  readonly #nextTurn: (run: () => void) => void;
  readonly #waiting: { readonly urgency: number; readonly run: () => Promise<void> }[] = [];
  #running = 0;

  /** `nextTurn` lets the messages that have arrived be read before the next job starts. */
  constructor(atOnce: number, nextTurn: (run: () => void) => void) {
    this.#atOnce = atOnce;
    this.#nextTurn = nextTurn;
  }

  add(urgency: number, run: () => Promise<void>): void {
    this.#waiting.push({ urgency, run });
    this.#nextTurn(() => this.#start());
  }

  #start(): void {
    if (this.#running >= this.#atOnce) return;
    const job = this.#takeMostUrgent();
    if (!job) return;
    this.#running += 1;
    job.run().finally(() => {
      this.#running -= 1;
      this.#nextTurn(() => this.#start());
    });
  }

  #takeMostUrgent() {
    let best = this.#waiting.length - 1;
    for (let at = best - 1; at >= 0; at -= 1) {
      if ((this.#waiting[at]?.urgency ?? 0) > (this.#waiting[best]?.urgency ?? 0)) best = at;
    }
    return this.#waiting.splice(best, 1)[0];
  }
}

/** The worker's own end: what a worker's global scope offers and a message port can stand in for. */
export interface PageEnd {
  postMessage(message: FromWorker, transfer: Transferable[]): void;
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
}

export interface Job {
  readonly signal: AbortSignal;
  readonly progress: (progress: Progress) => void;
}

export type Handlers = {
  readonly [K in MessageKind]: (question: Question<K>, job: Job) => Promise<Answer<K>>;
};

/** Numbers before pictures: a profile is waited for, a tile comes when it comes. */
const URGENCY: Readonly<Record<MessageKind, number>> = {
  'open-terrain': 3,
  'open-picture': 3,
  'ground-along': 2,
  'ground-at': 2,
  'propose-route': 2,
  'reach-map': 2,
  'reach-at': 2,
  'reach-line': 2,
  'site-systems': 2,
  'take-heights': 2,
  'take-picture': 2,
  'reach-tile': 1,
  reckon: 2,
  compare: 1,
  diagnose: 2,
  'beat-course': 1,
  'area-contours': 2,
  'contour-tile': 1,
  'relief-tile': 1,
  'slope-tile': 1,
  'picture-tile': 1,
};
const AT_ONCE = 4;
/** How often the page hears that a job is still wanted and the worker still turns, ms. */
const SIGN_OF_LIFE = 4_000;

/** Answers the page's questions with the handlers until the worker ends. */
export function serve(page: PageEnd, handlers: Handlers): void {
  const queue = new JobQueue(AT_ONCE, (run) => setTimeout(run, 0));
  const stops = new Map<number, AbortController>();
  const signs = new SignsOfLife((id) => page.postMessage({ id, kind: 'progress', progress: NO_NEWS }, []));
  page.onmessage = ({ data }) => {
    if (data.kind === 'cancel') {
      stops.get(data.id)?.abort();
      return;
    }
    const { id, kind } = data;
    const stop = new AbortController();
    stops.set(id, stop);
    // An opening must show progress of its own; the others work through blocks whose number is bounded.
    if (!kind.startsWith('open-')) signs.start(id);
    queue.add(URGENCY[kind], async () => {
      const reply = await answerTo(data, handlers, stop.signal, (progress) =>
        page.postMessage({ id, kind: 'progress', progress }, []),
      );
      stops.delete(id);
      signs.end(id);
      page.postMessage(reply, reply.kind === 'answer' ? transferables(reply.answer) : []);
    });
  };
}

const NO_NEWS: Progress = { done: 0, of: 0 };

/** Tells of each unfinished job at intervals, as long as the worker's event loop turns. */
class SignsOfLife {
  readonly #tell: (id: number) => void;
  readonly #ids = new Set<number>();
  #clock: ReturnType<typeof setInterval> | null = null;

  constructor(tell: (id: number) => void) {
    this.#tell = tell;
  }

  start(id: number): void {
    this.#ids.add(id);
    this.#clock ??= setInterval(() => {
      for (const each of this.#ids) this.#tell(each);
    }, SIGN_OF_LIFE);
  }

  end(id: number): void {
    this.#ids.delete(id);
    if (this.#ids.size > 0 || this.#clock === null) return;
    clearInterval(this.#clock);
    this.#clock = null;
  }
}

async function answerTo(
  message: Exclude<ToWorker, { kind: 'cancel' }>,
  handlers: Handlers,
  signal: AbortSignal,
  progress: (progress: Progress) => void,
): Promise<FromWorker> {
  const { id } = message;
  if (signal.aborted) return { id, kind: 'cancelled' };
  // `ToWorker` pairs each kind with its question, which the compiler cannot follow through the table.
  const handle = handlers[message.kind] as (question: unknown, job: Job) => Promise<Answer<MessageKind>>;
  try {
    return { id, kind: 'answer', answer: await handle(message.question, { signal, progress }) };
  } catch (error) {
    if (signal.aborted) return { id, kind: 'cancelled' };
    const problem = error instanceof FileRefusal ? { problem: error.problem } : {};
    return { id, kind: 'failed', reason: error instanceof Error ? error.message : String(error), ...problem };
  }
}

/** The buffers and pictures of an answer that can move to the page instead of being copied. */
export function transferables(answer: unknown): Transferable[] {
  const found = new Set<Transferable>();
  collect(answer, found);
  return [...found];
}

function collect(value: unknown, found: Set<Transferable>): void {
  if (typeof value !== 'object' || value === null) return;
  if (typeof ImageBitmap !== 'undefined' && value instanceof ImageBitmap) {
    found.add(value);
  } else if (value instanceof ArrayBuffer) {
    found.add(value);
  } else if (ArrayBuffer.isView(value)) {
    if (value.buffer instanceof ArrayBuffer) found.add(value.buffer);
  } else if (!Array.isArray(value)) {
    for (const part of Object.values(value)) collect(part, found);
  }
}
