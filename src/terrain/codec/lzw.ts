import { refuse } from '../bytes/file-refusal.ts';

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
