import { type FileHandle, open } from 'node:fs/promises';
import { basename } from 'node:path';
import type { ByteSlice, ByteSource } from '../../terrain/bytes/byte-source.ts';

/** A file on disk as a byte source; it stays open until it is closed. */
export interface FileSource extends ByteSource {
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
    if (bytesRead === 0) throw new Error(`${name}: ${length} bytes expected at ${offset}, found ${filled}`);
    filled += bytesRead;
  }
  return bytes;
}
