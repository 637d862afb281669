import { refuse } from '../bytes/file-refusal.ts';
import { unpackDeflate } from './inflate.ts';
import { unpackLzw } from './lzw.ts';
import { unpackZstd } from './zstd.ts';

const NOTHING = 128;

/** Unpacks a PackBits block into at most `most` bytes. Source: TIFF 6.0, Adobe, 1992, section 9. */
export function unpackPackBits(packed: Uint8Array, most: number): Uint8Array {
  const out = new Uint8Array(most);
  let at = 0;
  let written = 0;
  while (written < most && at < packed.length) {
    const head = packed[at++] as number;
    if (head === NOTHING) continue;
    if (head < NOTHING) {
      const run = Math.min(head + 1, packed.length - at, most - written);
      out.set(packed.subarray(at, at + run), written);
      at += head + 1;
      written += run;
      continue;
    }
    const value = packed[at++];
    if (value === undefined) break;
    const end = Math.min(written + 257 - head, most);
    out.fill(value, written, end);
    written = end;
  }
  return out.subarray(0, written);
}

/** Unpacks a block into at most so many bytes; fewer where it holds fewer. */
type Codec = (packed: Uint8Array, most: number) => Uint8Array;

const CODECS = new Map<number, Codec>([
  [1, takeStored],
  [5, unpackLzw],
  [8, unpackDeflate],
  [32946, unpackDeflate],
  [32773, unpackPackBits],
  [50000, unpackZstd],
]);

/** Compression schemes by number. Source: TIFF 6.0, Adobe, 1992; libtiff's tiff.h. */
const NAMES: Readonly<Record<number, string>> = {
  1: 'none',
  2: 'CCITT run length',
  3: 'CCITT group 3 fax',
  4: 'CCITT group 4 fax',
  5: 'LZW',
  6: 'old JPEG',
  7: 'JPEG',
  8: 'DEFLATE',
  32773: 'PackBits',
  32946: 'DEFLATE',
  34712: 'JPEG 2000',
  34887: 'LERC',
  34925: 'LZMA',
  50000: 'ZSTD',
  50001: 'WebP',
  50002: 'JPEG XL',
};

export const LERC = 34887;

export function isReadable(compression: number): boolean {
  return CODECS.has(compression) || compression === LERC;
}

export function compressionName(compression: number): string {
  return NAMES[compression] ?? `compression ${compression}`;
}

/** How many bytes a block must give: those of its rows, and at most those of a whole block where the last is filled up. */
export interface BlockBytes {
  readonly needed: number;
  readonly most: number;
}

/** Bytes beyond the end that writers leave there to fill up a word. */
const SLACK = 8;

/** Unpacks a block; one that gives less or more than its rows is refused, since its rows would not be where they seem. */
export function unpackBlock(compression: number, packed: Uint8Array, bytes: BlockBytes): Uint8Array {
  const name = compressionName(compression);
  const codec = CODECS.get(compression);
  if (codec === undefined) {
    refuse({
      code: 'compression',
      where: 'Compression',
      found: name,
      expected: 'none, LZW, DEFLATE, PackBits, ZSTD or LERC',
    });
  }
  const most = bytes.most + SLACK;
  const out = codec(packed, most + 1);
  if (out.length < bytes.needed || out.length > most) {
    const found = out.length > most ? `more than ${bytes.most} bytes` : `${out.length} bytes`;
    refuse({ code: 'broken-block', where: `${name} block`, found, expected: `${bytes.needed} bytes` });
  }
  return out.subarray(0, bytes.needed);
}

/** A copy of the bytes as they are, since what follows changes them in place. */
function takeStored(packed: Uint8Array, most: number): Uint8Array {
  return packed.slice(0, most);
}
