import { readFile } from 'node:fs/promises';
import { openAddressSource } from '../../terrain/bytes/address-source.ts';
import { fetchRange } from './fetch-range.ts';
import { openFileSource } from './file-source.ts';
import { InputError } from './input-error.ts';
import type { CommandIo, OpenFile } from './io.ts';

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
