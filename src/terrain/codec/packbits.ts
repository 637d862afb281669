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
