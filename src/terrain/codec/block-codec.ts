import { refuse } from '../bytes/file-refusal.ts';
import { unpackDeflate } from './inflate.ts';
import { unpackZstd } from './zstd.ts';

const CLEAR = 256;
const END = 257;
const FIRST_FREE = 258;
const MOST_CODES = 4096;
const MOST_BITS = 12;

/**
 * Unpacks an LZW block into at most `most` bytes: most significant bit first, code width raised one code early.
 *
 * Every entry of the table is a run of bytes already written, so the table holds only places and lengths and the output
 * never grows beyond what was asked for. Some writers fill all 4096 codes before they clear; they are read too.
 * Source: TIFF 6.0, Adobe, 1992, section 13.
 */
export function unpackLzw(packed: Uint8Array, most: number): Uint8Array {
  const out = new Uint8Array(most);
  const starts = new Int32Array(MOST_CODES);
  const lengths = new Int32Array(MOST_CODES);
  checkBitOrder(packed);
  let free = FIRST_FREE;
  let bits = 9;
  let held = 0;
  let heldBits = 0;
  let at = 0;
  let written = 0;
  let lastStart = 0;
  let lastLength = 0;
  while (written < most) {
    while (heldBits < bits && at < packed.length) {
      held = ((held << 8) | (packed[at++] as number)) & 0xffffff;
      heldBits += 8;
    }
    if (heldBits < bits) break;
    heldBits -= bits;
    const code = (held >>> heldBits) & ((1 << bits) - 1);
    if (code === END) break;
    if (code === CLEAR) {
      free = FIRST_FREE;
      bits = 9;
      lastLength = 0;
      continue;
    }
    const start = written;
    if (code < CLEAR) {
      out[written++] = code;
    } else {
      const known = code < free;
      if (!known && (code !== free || lastLength === 0)) refuseCode(code, free);
      const from = known ? (starts[code] as number) : lastStart;
      const run = known ? (lengths[code] as number) : lastLength + 1;
      written = copyRun(out, from, written, run);
    }
    if (lastLength > 0 && free < MOST_CODES) {
      starts[free] = lastStart;
      lengths[free] = lastLength + 1;
      free++;
      if (free + 1 >= 1 << bits && bits < MOST_BITS) bits++;
    }
    lastStart = start;
    lastLength = written - start;
  }
  return out.subarray(0, written);
}

/** Copies a run forward byte by byte, since it may reach into itself; stops at the end of the block. */
function copyRun(out: Uint8Array, from: number, to: number, run: number): number {
  const end = Math.min(to + run, out.length);
  let source = from;
  let target = to;
  while (target < end) out[target++] = out[source++] as number;
  return target;
}

function checkBitOrder(packed: Uint8Array): void {
  if (packed[0] === 0 && ((packed[1] ?? 0) & 1) === 1) {
    refuse({
      code: 'compression',
      where: 'Compression',
      found: 'LZW in the bit order used before 1992',
      expected: 'LZW as TIFF 6.0 defines it',
    });
  }
}

function refuseCode(code: number, free: number): never {
  return refuse({ code: 'broken-block', where: 'LZW', found: `code ${code}`, expected: `a code up to ${free}` });
}

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
