import { refuse } from '../bytes/file-refusal.ts';
import type { PagedBytes } from './paged-bytes.ts';
import { type TiffDirectory, type TiffEntry, typeBytes } from './tiff-directory.ts';
import { readUint64, type TiffHeader } from './tiff-header.ts';
import { tagName } from './tiff-tags.ts';

/** A long list of numbers in the file, each fetched when it is needed. */
export interface TagNumbers {
  readonly count: number;
  at(index: number): Promise<number>;
  /** So many numbers from `from` on, in one read. */
  run(from: number, count: number): Promise<readonly number[]>;
}

const MOST_VALUES = 65_536;
const MOST_TEXT = 4 * 1024 * 1024;
const ASCII = 2;
const BYTE_TYPES = new Set([1, 2, 7]);

/** The values of one directory's tags, read when asked for. */
export class TagValues {
  readonly #bytes: PagedBytes;
  readonly #header: TiffHeader;
  readonly #directory: TiffDirectory;

  constructor(bytes: PagedBytes, header: TiffHeader, directory: TiffDirectory) {
    this.#bytes = bytes;
    this.#header = header;
    this.#directory = directory;
  }

  has(tag: number): boolean {
    return this.#directory.entries.has(tag);
  }

  async numbers(tag: number): Promise<readonly number[] | undefined> {
    const entry = this.#directory.entries.get(tag);
    if (entry === undefined) return undefined;
    if (entry.count > MOST_VALUES) {
      refuse({
        code: 'tag-too-long',
        where: tagName(tag),
        found: `${entry.count} values`,
        expected: `at most ${MOST_VALUES}`,
      });
    }
    const size = numberBytes(entry);
    const bytes = await this.#bytes.bytes(entry.at, entry.count * size, tagName(tag));
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    return Array.from({ length: entry.count }, (_, i) => this.#number(view, i * size, entry.type));
  }

  /** The single number of a tag, or the default where the tag is absent. */
  async number(tag: number, absent: number): Promise<number> {
    const values = await this.numbers(tag);
    if (values === undefined) return absent;
    const [value] = values;
    return value ?? refuse({ code: 'empty-tag', where: tagName(tag), found: 'no value', expected: 'one number' });
  }

  /** The text of a tag up to its first NUL, as UTF-8. */
  async text(tag: number): Promise<string | undefined> {
    const entry = this.#directory.entries.get(tag);
    if (entry === undefined) return undefined;
    if (!BYTE_TYPES.has(entry.type) || entry.count > MOST_TEXT) {
      refuse({
        code: 'tag-type',
        where: tagName(tag),
        found: `${entry.count} values of type ${entry.type}`,
        expected: `text of at most ${MOST_TEXT} bytes`,
      });
    }
    const bytes = await this.#bytes.bytes(entry.at, entry.count, tagName(tag));
    const end = entry.type === ASCII ? bytes.indexOf(0) : -1;
    return new TextDecoder('utf-8').decode(end < 0 ? bytes : bytes.subarray(0, end));
  }

  list(tag: number): TagNumbers | undefined {
    const entry = this.#directory.entries.get(tag);
    if (entry === undefined) return undefined;
    const size = numberBytes(entry);
    const run = async (from: number, count: number) => {
      const bytes = await this.#bytes.bytes(entry.at + from * size, count * size, tagName(tag));
      const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
      return Array.from({ length: count }, (_, i) => this.#number(view, i * size, entry.type));
    };
    return { count: entry.count, run, at: async (index) => (await run(index, 1))[0] ?? 0 };
  }

  #number(view: DataView, at: number, type: number): number {
    const { littleEndian } = this.#header;
    switch (type) {
      case 3:
        return view.getUint16(at, littleEndian);
      case 4:
      case 13:
        return view.getUint32(at, littleEndian);
      case 6:
        return view.getInt8(at);
      case 8:
        return view.getInt16(at, littleEndian);
      case 9:
        return view.getInt32(at, littleEndian);
      case 11:
        return view.getFloat32(at, littleEndian);
      case 12:
        return view.getFloat64(at, littleEndian);
      case 16:
      case 18:
        return readUint64(view, at, littleEndian);
      default:
        return view.getUint8(at);
    }
  }
}

const NUMBER_TYPES = new Set([1, 3, 4, 6, 7, 8, 9, 11, 12, 13, 16, 18]);

function numberBytes(entry: TiffEntry): number {
  const size = typeBytes(entry.type);
  if (size !== undefined && NUMBER_TYPES.has(entry.type)) return size;
  return refuse({
    code: 'tag-type',
    where: tagName(entry.tag),
    found: `values of type ${entry.type}`,
    expected: 'numbers',
  });
}
