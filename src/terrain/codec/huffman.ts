import { refuse } from '../bytes/file-refusal.ts';

/** A prefix code as one table: the low bits of the stream lead straight to symbol · 16 + code length. */
export interface HuffmanTable {
  readonly lookup: Uint16Array;
  readonly mask: number;
}

const MOST_BITS = 15;

/** Builds the table of a canonical code from the length of each symbol's code. Source: RFC 1951, section 3.2.2. */
export function buildHuffman(lengths: Uint8Array): HuffmanTable {
  const counts = new Uint16Array(MOST_BITS + 1);
  let longest = 1;
  for (const length of lengths) {
    if (length === 0) continue;
    counts[length] = (counts[length] as number) + 1;
    if (length > longest) longest = length;
  }
  const next = firstCodes(counts);
  const lookup = new Uint16Array(1 << longest);
  for (let symbol = 0; symbol < lengths.length; symbol++) {
    const length = lengths[symbol] as number;
    if (length === 0) continue;
    const code = next[length] as number;
    next[length] = code + 1;
    const step = 1 << length;
    const entry = (symbol << 4) | length;
    for (let slot = reverseBits(code, length); slot < lookup.length; slot += step) lookup[slot] = entry;
  }
  return { lookup, mask: lookup.length - 1 };
}

function firstCodes(counts: Uint16Array): Uint32Array {
  const next = new Uint32Array(MOST_BITS + 2);
  let code = 0;
  for (let bits = 1; bits <= MOST_BITS; bits++) {
    code = (code + (bits > 1 ? (counts[bits - 1] as number) : 0)) << 1;
    next[bits] = code;
    if (code + (counts[bits] as number) > 1 << bits) {
      refuse({
        code: 'broken-block',
        where: 'DEFLATE',
        found: 'more codes than their lengths allow',
        expected: 'a prefix code',
      });
    }
  }
  return next;
}

function reverseBits(code: number, length: number): number {
  let reversed = 0;
  for (let i = 0; i < length; i++) reversed |= ((code >> i) & 1) << (length - 1 - i);
  return reversed;
}
