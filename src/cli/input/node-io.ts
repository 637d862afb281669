import { spawn } from 'node:child_process';
import { createReadStream } from 'node:fs';
import { appendFile, type FileHandle, open, readFile, stat, truncate } from 'node:fs/promises';
import { basename } from 'node:path';
import { createInterface } from 'node:readline';
import { inflateSync } from 'node:zlib';
import { openAddressSource } from '../../terrain/bytes/address-source.ts';
import type { ByteSlice, ByteSource } from '../../terrain/bytes/byte-source.ts';
import { refuse } from '../../terrain/bytes/file-refusal.ts';
import type { AskRange } from '../../terrain/bytes/range-server.ts';
import { inflateWith } from '../../terrain/codec/inflate.ts';
import { FETCH_LIMITS, rangeFetcher } from './fetch-range.ts';
import type { CommandIo, OpenFile } from './io.ts';
import { InputError } from './io.ts';
import { unwritable, WatchedOutput, writeNewFile } from './output.ts';

export const fetchRange: AskRange = rangeFetcher(FETCH_LIMITS);

const NEWLINE = 0x0a;

/** Node's own zlib, several times as fast as the program's; a stream it does not like is left to the program. */
export function machineInflate(packed: Uint8Array, most: number): Uint8Array | null {
  try {
    const bytes = inflateSync(packed, { maxOutputLength: most });
    // A piece of Node's pool may start anywhere; numbers of several bytes must not.
    return bytes.byteOffset % 8 === 0 ? new Uint8Array(bytes.buffer, bytes.byteOffset, bytes.length) : bytes.slice();
  } catch {
    return null;
  }
}

inflateWith(machineInflate);

const output = new WatchedOutput(process.stdout, 'standard output');
// What cannot be told cannot be told that it was not.
process.stderr.on('error', () => undefined);

/** The real world: this process's streams and files. */
export const nodeIo: CommandIo = {
  out: (text) => output.write(text),
  written: () => output.written(),
  err: (text) => void process.stderr.write(text),
  readText,
  writeFile: writeNewFile,
  async appendFile(path, text) {
    try {
      await appendFile(path, text);
    } catch (error) {
      throw unwritable(path, error);
    }
  },
  async keepWholeLines(path) {
    const bytes = await readFile(path).catch(() => null);
    if (bytes === null) return 0;
    const end = bytes.lastIndexOf(NEWLINE) + 1;
    if (end < bytes.length) await truncate(path, end);
    let lines = 0;
    for (let at = bytes.indexOf(NEWLINE); at >= 0; at = bytes.indexOf(NEWLINE, at + 1)) lines += 1;
    return lines;
  },
  async *runSelf(args) {
    const child = spawn(process.execPath, [process.argv[1] ?? '', ...args], { stdio: ['ignore', 'pipe', 'inherit'] });
    const ended = new Promise<number | null>((done) => child.on('close', done));
    let code: number | null;
    try {
      for await (const line of createInterface({ input: child.stdout })) yield line;
      code = await ended;
    } finally {
      // Nobody wants its other lines where nobody reads these.
      child.kill();
    }
    if (code !== 0) throw new InputError(`a worker ended with ${code}, expected 0`);
  },
  async openFiles(paths) {
    const open: OpenFile[] = [];
    try {
      for (const path of paths) open.push(await openFile(path));
      return open;
    } catch (error) {
      await Promise.all(open.map((file) => file.close()));
      throw error;
    }
  },
};

/** More than this of a text is not read: a plan, a list of springs. */
const MOST_TEXT = 256 * 1024 * 1024;

/** Text of a file or a pipe, which may have no end. */
async function readText(path: string): Promise<string> {
  const pieces: Buffer[] = [];
  let bytes = 0;
  try {
    for await (const piece of createReadStream(path)) {
      pieces.push(piece);
      bytes += piece.length;
      if (bytes > MOST_TEXT) throw new InputError(`${path}: found more than 256 MB, expected a text`);
    }
  } catch (error) {
    throw error instanceof InputError ? error : new InputError(`${path}: ${unreadable(error)}`);
  }
  return Buffer.concat(pieces).toString('utf8');
}

const ADDRESS = /^https?:\/\//i;

async function openFile(path: string): Promise<OpenFile> {
  if (ADDRESS.test(path)) return openAddress(path);
  try {
    // Before it is opened: opening a pipe waits for a writer.
    const about = await stat(path);
    if (about.isDirectory()) throw new InputError(`${path}: ${REASONS.EISDIR}`);
    if (!about.isFile()) {
      throw new InputError(
        `${path}: found a pipe or a device, expected a file: elevations are read here and there, not from end to end; write them to a file first`,
      );
    }
    return await openFileSource(path);
  } catch (error) {
    throw error instanceof InputError ? error : new InputError(`${path}: ${unreadable(error)}`);
  }
}

async function openAddress(address: string): Promise<OpenFile> {
  const opened = await openAddressSource(address, fetchRange);
  if (opened.ok) return { ...opened.value, close: async () => undefined };
  const [problem] = opened.problems;
  throw new InputError(`${address}: found ${problem?.found}, expected ${problem?.expected}`);
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'found no such file',
  EISDIR: 'found a folder, expected a file',
  EACCES: 'found a file that may not be read',
};

function unreadable(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return REASONS[code] ?? `cannot be read (${code || String(error)})`;
}

/** A file on disk as a byte source; it stays open until it is closed. */
interface FileSource extends ByteSource {
  close(): Promise<void>;
}

export async function openFileSource(path: string): Promise<FileSource> {
  const file = await open(path, 'r');
  const { size } = await file.stat();
  const name = basename(path);
  return {
    name,
    size,
    read: async (slices, signal) => {
      const read: Uint8Array[] = [];
      for (const slice of slices) {
        signal?.throwIfAborted();
        read.push(await readSlice(name, file, slice));
      }
      return read;
    },
    close: () => file.close(),
  };
}

async function readSlice(name: string, file: FileHandle, { offset, length }: ByteSlice): Promise<Uint8Array> {
  const bytes = new Uint8Array(length);
  let filled = 0;
  while (filled < length) {
    const { bytesRead } = await file.read(bytes, filled, length - filled, offset + filled);
    if (bytesRead === 0) {
      const expected = `${length} bytes at ${offset}; the file may be changing`;
      refuse({ code: 'short-read', where: name, found: `${filled} bytes`, expected });
    }
    filled += bytesRead;
  }
  return bytes;
}
