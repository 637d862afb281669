import { failLerc, type LercCursor } from './lerc-cursor.ts';

/**
 * Reads a list of small whole numbers that LERC packs with the same number of bits each, directly or through a table of the
 * few values that occur. Source: Esri, LERC specification (github.com/Esri/lerc), BitStuffer2.
 */
export function readPackedNumbers(cursor: LercCursor, most: number): Uint32Array {
  const head = cursor.byte();
  const countForm = head >> 6;
  const viaTable = (head & 32) !== 0;
  const bits = head & 31;
  const count = countForm === 0 ? cursor.uint32() : countForm === 1 ? cursor.uint16() : cursor.byte();
  if (count > most) failLerc(`${count} packed numbers`, `at most ${most}`);
  if (!viaTable) return unpack(cursor, count, bits);
  const entries = cursor.byte() - 1;
  if (entries < 1 || bits === 0) failLerc('an empty table', 'values');
  const table = Uint32Array.from([0, ...unpack(cursor, entries, bits)]);
  const places = unpack(cursor, count, 32 - Math.clz32(entries));
  return places.map((place) => table[place] ?? failLerc(`entry ${place}`, `at most ${entries}`));
}

/** Widest number that four bytes hold wherever it starts in the first. */
const NARROW = 25;

/** Numbers of `bits` bits each, low bits first, without the bytes that the last word does not need. */
function unpack(cursor: LercCursor, count: number, bits: number): Uint32Array {
  const out = new Uint32Array(count);
  if (bits === 0) return out;
  const bytes = cursor.run(Math.ceil((count * bits) / 8));
  if (bits > NARROW) unpackWide(bytes, out, bits);
  else unpackNarrow(bytes, out, bits);
  return out;
}

function unpackNarrow(bytes: Uint8Array, out: Uint32Array, bits: number): void {
  const mask = (1 << bits) - 1;
  for (let i = 0, at = 0; i < out.length; i++, at += bits) {
    const byte = at >> 3;
    // Beyond the end a typed array gives nothing, which counts as 0 here.
    const word =
      (bytes[byte] as number) |
      ((bytes[byte + 1] as number) << 8) |
      ((bytes[byte + 2] as number) << 16) |
      ((bytes[byte + 3] as number) << 24);
    out[i] = (word >>> (at & 7)) & mask;
  }
}

/** Up to 31 + 8 bits are held: more than bit operators carry, so the value is put together by arithmetic. */
function unpackWide(bytes: Uint8Array, out: Uint32Array, bits: number): void {
  let held = 0;
  let heldBits = 0;
  let at = 0;
  for (let i = 0; i < out.length; i++) {
    while (heldBits < bits) {
      held += (bytes[at++] as number) * 2 ** heldBits;
      heldBits += 8;
    }
    const value = held % 2 ** bits;
    out[i] = value;
    held = (held - value) / 2 ** bits;
    heldBits -= bits;
  }
}
