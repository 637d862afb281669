import type { ByteSlice, ByteSource } from '../terrain/bytes/byte-source.ts';

/** Bytes of a file that was dropped on the page or chosen from disk. Nothing is read before it is asked for. */
export function blobSource(name: string, blob: Blob): ByteSource {
  return {
    name,
    size: blob.size,
    read: (slices, signal) => {
      signal?.throwIfAborted();
      return Promise.all(slices.map((slice) => readSlice(name, blob, slice)));
    },
  };
}

async function readSlice(name: string, blob: Blob, { offset, length }: ByteSlice): Promise<Uint8Array> {
  const bytes = new Uint8Array(await blob.slice(offset, offset + length).arrayBuffer());
  if (bytes.length !== length) throw new Error(`${name}: ${length} bytes expected at ${offset}, found ${bytes.length}`);
  return bytes;
}
