import { unlinkSync } from 'node:fs';
import { type FileHandle, link, open, rename, stat, unlink } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { InputError } from './io.ts';

/** The answer was there and could not be written: no room is left, or nobody reads any more. */
export class OutputError extends Error {
  override readonly name = 'OutputError';
  readonly why: 'no-room' | 'closed';

  constructor(why: OutputError['why'], message: string) {
    super(message);
    this.why = why;
  }
}

/** What systems say where a disk, a quota or the largest file is full. */
const NO_ROOM: readonly string[] = ['ENOSPC', 'EDQUOT', 'EFBIG'];
/** What they say where the reader of a pipe is gone. */
const CLOSED: readonly string[] = ['EPIPE', 'ECONNRESET', 'ERR_STREAM_DESTROYED'];

const codeOf = (error: unknown): string => (error instanceof Error && 'code' in error ? String(error.code) : '');

const WRITE_REASONS: Readonly<Record<string, string>> = {
  EEXIST: 'found a file of that name, expected a new one',
  ENOENT: 'found no such folder',
  ENOTDIR: 'found a file where a folder was expected',
  EACCES: 'found a place that may not be written',
  EPERM: 'found a place that may not be written',
  EROFS: 'found a disk that may only be read',
};

/** Why something could not be written, as the error that says so. */
export function unwritable(where: string, error: unknown): InputError | OutputError {
  const code = codeOf(error);
  if (NO_ROOM.includes(code)) {
    return new OutputError('no-room', `${where}: found no room left (${code}), expected room for the answer`);
  }
  if (CLOSED.includes(code)) return new OutputError('closed', `${where}: found nobody reading, expected a reader`);
  return new InputError(`${where}: ${WRITE_REASONS[code] ?? `cannot be written (${code || String(error)})`}`);
}

/** A stream such as standard output, as far as it is needed here. */
export interface Sink {
  write(text: string, done: (error?: Error | null) => void): boolean;
  on(event: 'error', heard: (error: Error) => void): unknown;
}

/** Standard output that remembers what went wrong: the next text is not taken, and the end is not reached in peace. */
export class WatchedOutput {
  readonly #sink: Sink;
  readonly #name: string;
  #failure: Error | null = null;
  #last: Promise<void> = Promise.resolve();

  constructor(sink: Sink, name: string) {
    this.#sink = sink;
    this.#name = name;
    sink.on('error', (error) => this.#fail(error));
  }

  write(text: string): void {
    if (this.#failure) throw unwritable(this.#name, this.#failure);
    this.#last = new Promise((done) => {
      this.#sink.write(text, (error) => {
        if (error) this.#fail(error);
        done();
      });
    });
  }

  /** Resolves once everything is written; rejects with an OutputError where something was not. */
  async written(): Promise<void> {
    await this.#last;
    if (this.#failure) throw unwritable(this.#name, this.#failure);
  }

  #fail(error: Error): void {
    this.#failure ??= error;
  }
}

/** Files that are being written: they go when the program is interrupted. */
const unfinished = new Set<string>();

/** Ended by a signal: what is half written is taken away first. Source of the status: 128 and the signal's number, as shells have it. */
const SIGNALS = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const;
let heeding = false;

function heedSignals(): void {
  if (heeding) return;
  heeding = true;
  for (const [signal, status] of Object.entries(SIGNALS)) {
    process.once(signal, () => {
      for (const path of unfinished) {
        try {
          unlinkSync(path);
        } catch {
          // It was finished or taken away in this moment.
        }
      }
      process.exit(status);
    });
  }
}

/**
 * Writes a new file: beside it first, and under its name only when all of it is on the disk. What is there is never written
 * over, and nothing half written is left behind.
 */
export async function writeNewFile(path: string, bytes: Uint8Array): Promise<void> {
  const beside = join(dirname(path), `.${basename(path)}.${process.pid}.part`);
  heedSignals();
  unfinished.add(beside);
  try {
    if (await isThere(path)) throw Object.assign(new Error(path), { code: 'EEXIST' });
    const file = await open(beside, 'wx');
    await written(file, bytes);
    await named(beside, path);
  } catch (error) {
    throw unwritable(path, error);
  } finally {
    await unlink(beside).catch(() => undefined);
    unfinished.delete(beside);
  }
}

async function written(file: FileHandle, bytes: Uint8Array): Promise<void> {
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Gives a finished file its name; a second name fails where there is one by now, which renaming would write over. */
async function named(beside: string, path: string): Promise<void> {
  try {
    await link(beside, path);
  } catch (error) {
    if (!NO_LINKS.includes(codeOf(error))) throw error;
    if (await isThere(path)) throw Object.assign(new Error(path), { code: 'EEXIST' });
    await rename(beside, path);
  }
}

/** What file systems without second names say. */
const NO_LINKS: readonly string[] = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK'];

const isThere = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  );
