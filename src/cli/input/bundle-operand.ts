import {
  BUNDLE_HEAD_BYTES,
  type FieldBundle,
  looksLikeBundle,
  readBundle,
} from '../../report/exchange/field-bundle.ts';
import type { ByteSource } from '../../terrain/bytes/byte-source.ts';
import { type CommandIo, InputError, type OpenFile } from './io.ts';
import { problemLine } from './problem-line.ts';

/** More than this of a bundle is not read, bytes. */
const MOST_BYTES = 64 * 1024 * 1024;

const ZIP = /\.zip$/i;

/** A file that was made for use out of doors, where a plan was expected; null for a plan file. */
export async function bundleAt(path: string, io: CommandIo): Promise<FieldBundle | null> {
  if (!ZIP.test(path)) return null;
  const [file] = await io.openFiles([path]);
  if (file === undefined) throw new Error(`${path}: found no opened file, expected one`);
  try {
    const bytes = await wholeBundle(path, file);
    const read = readBundle(path, bytes);
    if (read.ok) return read.value;
    throw new InputError(read.problems.map(problemLine).join('; '));
  } finally {
    await file.close();
  }
}

async function wholeBundle(path: string, file: OpenFile): Promise<Uint8Array> {
  if (file.size > MOST_BYTES) {
    throw new InputError(`${path}: found ${file.size} bytes, expected ${MOST_BYTES} at most`);
  }
  const [bytes = new Uint8Array(0)] = await file.read([{ offset: 0, length: file.size }]);
  if (looksLikeBundle(bytes.subarray(0, BUNDLE_HEAD_BYTES))) return bytes;
  throw new InputError(
    `${path}: found an archive of another kind, expected a plan or a file made by rillwright bundle`,
  );
}

/** The elevations of a bundle as open files. */
export function filesInBundle({ heights }: FieldBundle): OpenFile[] {
  return heights.map(({ name, bytes }) => ({ ...inMemory(name, bytes), close: async () => undefined }));
}

function inMemory(name: string, bytes: Uint8Array): ByteSource {
  return {
    name,
    size: bytes.length,
    read: async (slices) =>
      slices.map(({ offset, length }) => {
        if (offset + length > bytes.length) throw new InputError(`${name}: found ${bytes.length} bytes, expected more`);
        return bytes.slice(offset, offset + length);
      }),
  };
}
