import { refuse } from './file-refusal.ts';

const NOTHING = 128;

/** Unpacks a PackBits block into exactly `length` bytes. Source: TIFF 6.0, Adobe, 1992, section 9. */
export function unpackPackBits(packed: Uint8Array, length: number): Uint8Array {
  const out = new Uint8Array(length);
  let at = 0;
  let written = 0;
  while (written < length && at < packed.length) {
    const head = packed[at++] as number;
    if (head === NOTHING) continue;
    if (head < NOTHING) {
      const run = Math.min(head + 1, packed.length - at, length - written);
      out.set(packed.subarray(at, at + run), written);
      at += head + 1;
      written += run;
      continue;
    }
    const value = packed[at++];
    if (value === undefined) break;
    const end = Math.min(written + 257 - head, length);
    out.fill(value, written, end);
    written = end;
  }
  if (written < length) {
    refuse({ code: 'broken-block', where: 'PackBits', found: `${written} bytes`, expected: `${length} bytes` });
  }
  return out;
}
