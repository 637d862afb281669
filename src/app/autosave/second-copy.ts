import { checksum } from './checksum.ts';
import { type KeptWork, type ReadWork, readWork, sealedWork } from './kept-work.ts';

/** A second place that outlives the page and shares nothing with the first: texts by name, each written as a whole. */
export interface CopyShelf {
  names(): Promise<readonly string[]>;
  read(name: string): Promise<string | null>;
  write(name: string, text: string): Promise<void>;
  remove(name: string): Promise<void>;
}

const MARK = 'rillwright kept work';

/** A work as the text of its second copy: a line that says what follows and its checksum, then the work. */
export function copyText(work: KeptWork): string {
  const body = JSON.stringify(sealedWork(work));
  return `${MARK} ${checksum(body)}\n${body}`;
}

/** A work from its second copy; a text that was cut, lengthened or filled with zeros is torn. */
export function readCopy(text: string): ReadWork {
  const end = text.indexOf('\n');
  const body = text.slice(end + 1);
  if (end < 0 || text.slice(0, end) !== `${MARK} ${checksum(body)}`) return { kind: 'torn' };
  try {
    return readWork(JSON.parse(body));
  } catch {
    return { kind: 'torn' };
  }
}

/** Texts up to this are copied at every step; larger ones now and then, and when the page is left. */
const AT_EVERY_STEP = 64 * 1024;
/** How long a larger work waits for its next copy, ms. */
const PAUSE_MS = 20_000;

interface Clock {
  readonly now: () => number;
  readonly later: (run: () => void, ms: number) => void;
}

/** Writes the second copies of a tab's works. What cannot be written is no trouble of the first copy. */
export class SecondCopy {
  readonly #shelf: CopyShelf | null;
  readonly #clock: Clock;
  readonly #writtenAt = new Map<string, number>();
  #waiting: KeptWork | null = null;
  #writing: Promise<void> = Promise.resolve();

  constructor(shelf: CopyShelf | null, clock: Clock) {
    this.#shelf = shelf;
    this.#clock = clock;
  }

  /** Copies a work, at once or when its turn has come; a newer state takes the place of one that waits. */
  keep(work: KeptWork): Promise<void> {
    if (this.#shelf === null) return Promise.resolve();
    if (this.#waiting !== null && this.#waiting.id !== work.id) this.flush();
    const size = work.plans.reduce((sum, { text }) => sum + text.length, 0);
    const since = this.#clock.now() - (this.#writtenAt.get(work.id) ?? Number.NEGATIVE_INFINITY);
    if (size <= AT_EVERY_STEP || since >= PAUSE_MS || since < 0) return this.#write(work);
    if (this.#waiting === null) this.#clock.later(() => this.flush(), PAUSE_MS - since);
    this.#waiting = work;
    return Promise.resolve();
  }

  /** Copies what still waits for its turn. */
  flush(): Promise<void> {
    const work = this.#waiting;
    this.#waiting = null;
    return work === null ? this.#writing : this.#write(work);
  }

  #write(work: KeptWork): Promise<void> {
    if (this.#waiting?.id === work.id) this.#waiting = null;
    this.#writtenAt.set(work.id, this.#clock.now());
    const shelf = this.#shelf;
    this.#writing = this.#writing.then(() => shelf?.write(work.id, copyText(work))).catch(() => undefined);
    return this.#writing;
  }
}
