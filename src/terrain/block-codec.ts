import { refuse } from './file-refusal.ts';
import { unpackDeflate } from './inflate.ts';
import { unpackLzw } from './lzw.ts';
import { unpackPackBits } from './packbits.ts';
import { unpackZstd } from './zstd.ts';

/** Unpacks a block into exactly `length` bytes, or refuses. */
type Codec = (packed: Uint8Array, length: number) => Uint8Array;

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

export function unpackBlock(compression: number, packed: Uint8Array, length: number): Uint8Array {
  const codec = CODECS.get(compression);
  if (codec !== undefined) return codec(packed, length);
  return refuse({
    code: 'compression',
    where: 'Compression',
    found: compressionName(compression),
    expected: 'none, LZW, DEFLATE, PackBits, ZSTD or LERC',
  });
}

function takeStored(packed: Uint8Array, length: number): Uint8Array {
  if (packed.length >= length) return packed.slice(0, length);
  return refuse({
    code: 'broken-block',
    where: 'uncompressed block',
    found: `${packed.length} bytes`,
    expected: `${length} bytes`,
  });
}
