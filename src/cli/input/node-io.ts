import { spawn } from 'node:child_process';
import { appendFile, type FileHandle, open, readFile, truncate, writeFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { createInterface } from 'node:readline';
import { inflateSync } from 'node:zlib';
import { openAddressSource } from '../../terrain/bytes/address-source.ts';
import type { ByteSlice, ByteSource } from '../../terrain/bytes/byte-source.ts';
import { refuse } from '../../terrain/bytes/file-refusal.ts';
import { type AskRange, readContentRange, versionFrom } from '../../terrain/bytes/range-server.ts';
import { inflateWith } from '../../terrain/codec/inflate.ts';
import type { CommandIo, OpenFile } from './io.ts';
import { InputError } from './io.ts';

const PARTIAL = 206;

/** Silence of a server after which a request is given up, ms. */
const LONGEST_SILENCE = 30_000;

/** Asks servers for ranges with Node's fetch, whose silence is borne so long; nothing but the range is read of an answer. */
export function rangeFetcher(longestSilence: number): AskRange {
  return async (address, { first, last }, signal) => {
    const silent = new AbortController();
    const tooLong = new Error(`no word for ${longestSilence / 1000} s`);
    let clock = setTimeout(() => silent.abort(tooLong), longestSilence);
    const heard = (): void => {
      clearTimeout(clock);
      clock = setTimeout(() => silent.abort(tooLong), longestSilence);
    };
    try {
      const reply = await fetch(address, {
        headers: { Range: `bytes=${first}-${last}` },
        signal: signal ? AbortSignal.any([signal, silent.signal]) : silent.signal,
      });
      heard();
      const part = readContentRange(reply.headers.get('content-range'));
      const version = versionFrom(reply.headers);
      const bytes = await partOf(reply, last - first + 1, heard);
      return { status: reply.status, ...part, version, bytes };
    } finally {
      clearTimeout(clock);
    }
  };
}

export const fetchRange: AskRange = rangeFetcher(LONGEST_SILENCE);

/** The bytes of a part, and one more where a server sends more than was asked for; of any other answer nothing is read. */
async function partOf(reply: Response, most: number, heard: () => void): Promise<Uint8Array> {
  const reader = reply.status === PARTIAL ? reply.body?.getReader() : undefined;
  if (reader === undefined) {
    await reply.body?.cancel();
    return new Uint8Array(0);
  }
  const bytes = new Uint8Array(most + 1);
  let filled = 0;
  while (filled <= most) {
    const { done, value } = await reader.read();
    if (done) return bytes.subarray(0, filled);
    heard();
    bytes.set(value.subarray(0, bytes.length - filled), filled);
    filled += value.length;
  }
  await reader.cancel();
  return bytes;
}

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

/** The real world: this process's streams and files. */
export const nodeIo: CommandIo = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  async readText(path) {
    try {
      return await readFile(path, 'utf8');
    } catch (error) {
      throw new InputError(`${path}: ${unreadable(error)}`);
    }
  },
  async writeFile(path, bytes) {
    try {
      await writeFile(path, bytes, { flag: 'wx' });
    } catch (error) {
      throw new InputError(`${path}: ${unwritable(error)}`);
    }
  },
  async appendFile(path, text) {
    try {
      await appendFile(path, text);
    } catch (error) {
      throw new InputError(`${path}: ${unwritable(error)}`);
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
    for await (const line of createInterface({ input: child.stdout })) yield line;
    const code = await ended;
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

const ADDRESS = /^https?:\/\//i;

async function openFile(path: string): Promise<OpenFile> {
  if (ADDRESS.test(path)) return openAddress(path);
  try {
    return await openFileSource(path);
  } catch (error) {
    throw new InputError(`${path}: ${unreadable(error)}`);
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

const WRITE_REASONS: Readonly<Record<string, string>> = {
  EEXIST: 'found a file of that name, expected a new one',
  ENOENT: 'found no such folder',
  EACCES: 'found a place that may not be written',
};

function unwritable(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return WRITE_REASONS[code] ?? `cannot be written (${code || String(error)})`;
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
