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
  checkBitOrder(packed);
  const out = new Uint8Array(most);
  // Where each code since the last clear wrote. Entry n of the table is what code n − 258 wrote and the byte after it, so it
  // ends one byte beyond where the next code begins; the newest may be used by the very code that completes it.
  const starts = new Int32Array(MOST_CODES + 2);
  const { length } = packed;
  let next = FIRST_FREE;
  let bits = 9;
  let widens = 1 << bits;
  let held = 0;
  let heldBits = 0;
  let at = 0;
  let written = 0;
  while (written < most) {
    if (heldBits < bits) {
      if (at + 1 < length) {
        held = (held << 16) | ((packed[at] as number) << 8) | (packed[at + 1] as number);
        at += 2;
        heldBits += 16;
      } else if (at < length) {
        held = (held << 8) | (packed[at++] as number);
        heldBits += 8;
        if (heldBits < bits) break;
      } else break;
    }
    heldBits -= bits;
    const code = (held >>> heldBits) & (widens - 1);
    if (code === CLEAR) {
      next = FIRST_FREE;
      bits = 9;
      widens = 1 << bits;
      continue;
    }
    if (code === END) break;
    if (next <= MOST_CODES) starts[next] = written;
    if (code < CLEAR) out[written++] = code;
    else {
      if (code >= next) refuseCode(code, next - 1);
      let from = starts[code] as number;
      const run = (starts[code + 1] as number) - from + 1;
      const end = Math.min(written + run, most);
      while (written < end) out[written++] = out[from++] as number;
    }
    if (next <= MOST_CODES) next++;
    if (next >= widens && bits < MOST_BITS) {
      bits++;
      widens <<= 1;
    }
  }
  return out.subarray(0, written);
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
