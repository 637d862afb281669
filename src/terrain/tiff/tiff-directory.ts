import { refuse } from '../bytes/file-refusal.ts';
import type { PagedBytes } from './paged-bytes.ts';
import { readUint64, type TiffHeader } from './tiff-header.ts';
import { tagName } from './tiff-tags.ts';

/** One entry of a directory. Short values stand in the entry itself, at `at` inside the file like long ones. */
export interface TiffEntry {
  readonly tag: number;
  readonly type: number;
  readonly count: number;
  readonly at: number;
}

/** A directory of a TIFF file: one image and its description. */
export interface TiffDirectory {
  readonly offset: number;
  readonly entries: ReadonlyMap<number, TiffEntry>;
}

const MOST_DIRECTORIES = 64;
const MOST_ENTRIES = 4096;

/** Bytes of one value by field type. Source: TIFF 6.0, Adobe, 1992, section 2; types 16 to 18 from BigTIFF. */
const TYPE_BYTES: Readonly<Record<number, number>> = {
  1: 1,
  2: 1,
  3: 2,
  4: 4,
  5: 8,
  6: 1,
  7: 1,
  8: 2,
  9: 4,
  10: 8,
  11: 4,
  12: 8,
  13: 4,
  16: 8,
  17: 8,
  18: 8,
};

export function typeBytes(type: number): number | undefined {
  return TYPE_BYTES[type];
}

/** All directories of the file in their chain's order. A chain that comes back to itself is refused. */
export async function readDirectories(bytes: PagedBytes, header: TiffHeader): Promise<readonly TiffDirectory[]> {
  const directories: TiffDirectory[] = [];
  const visited = new Set<number>();
  let offset = header.firstDirectory;
  while (offset !== 0) {
    if (visited.has(offset)) {
      refuse({
        code: 'directory-cycle',
        where: `directory ${directories.length}`,
        found: `a directory that follows itself at byte ${offset}`,
        expected: 'a chain of directories that ends',
      });
    }
    if (visited.size >= MOST_DIRECTORIES) {
      refuse({
        code: 'too-many-directories',
        where: `directory ${directories.length}`,
        found: `more than ${MOST_DIRECTORIES} directories`,
        expected: `at most ${MOST_DIRECTORIES}`,
      });
    }
    visited.add(offset);
    const { directory, next } = await readDirectory(bytes, header, { offset, index: directories.length });
    directories.push(directory);
    offset = next;
  }
  return directories;
}

async function readDirectory(
  bytes: PagedBytes,
  header: TiffHeader,
  place: { offset: number; index: number },
): Promise<{ directory: TiffDirectory; next: number }> {
  const where = `directory ${place.index}`;
  const { littleEndian, big } = header;
  const countBytes = big ? 8 : 2;
  const entryBytes = big ? 20 : 12;
  const count = readCount(viewOf(await bytes.bytes(place.offset, countBytes, where)), header);
  if (count < 1 || count > MOST_ENTRIES) {
    refuse({ code: 'directory-size', where, found: `${count} entries`, expected: `1 to ${MOST_ENTRIES} entries` });
  }
  const nextBytes = big ? 8 : 4;
  const start = place.offset + countBytes;
  const body = viewOf(await bytes.bytes(start, count * entryBytes + nextBytes, where));
  const entries = new Map<number, TiffEntry>();
  for (let i = 0; i < count; i++) {
    const entry = readEntry(body, i * entryBytes, start, header);
    checkEntry(entry, bytes.source.size);
    if (!entries.has(entry.tag)) entries.set(entry.tag, entry);
  }
  const nextAt = count * entryBytes;
  const next = big ? readUint64(body, nextAt, littleEndian) : body.getUint32(nextAt, littleEndian);
  return { directory: { offset: place.offset, entries }, next };
}

function readCount(view: DataView, header: TiffHeader): number {
  return header.big ? readUint64(view, 0, header.littleEndian) : view.getUint16(0, header.littleEndian);
}

function readEntry(body: DataView, at: number, start: number, header: TiffHeader): TiffEntry {
  const { littleEndian, big } = header;
  const tag = body.getUint16(at, littleEndian);
  const type = body.getUint16(at + 2, littleEndian);
  const count = big ? readUint64(body, at + 4, littleEndian) : body.getUint32(at + 4, littleEndian);
  const valueAt = at + (big ? 12 : 8);
  const room = big ? 8 : 4;
  const inline = count * (TYPE_BYTES[type] ?? 1) <= room;
  const offset = big ? readUint64(body, valueAt, littleEndian) : body.getUint32(valueAt, littleEndian);
  return { tag, type, count, at: inline ? start + valueAt : offset };
}

function checkEntry(entry: TiffEntry, size: number): void {
  const bytes = TYPE_BYTES[entry.type];
  if (bytes === undefined) return;
  if (entry.at + entry.count * bytes > size) {
    refuse({
      code: 'outside-file',
      where: tagName(entry.tag),
      found: `${entry.count} values of ${bytes} bytes at ${entry.at}`,
      expected: `a place inside the file's ${size} bytes`,
    });
  }
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
