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

/** Numbers of `bits` bits each, low bits first, without the bytes that the last word does not need. */
function unpack(cursor: LercCursor, count: number, bits: number): Uint32Array {
  const out = new Uint32Array(count);
  if (bits === 0) return out;
  const bytes = cursor.run(Math.ceil((count * bits) / 8));
  let held = 0;
  let heldBits = 0;
  let at = 0;
  for (let i = 0; i < count; i++) {
    // Up to 31 + 8 bits are held: more than bit operators carry, so the value is put together by arithmetic.
    while (heldBits < bits) {
      held += (bytes[at++] as number) * 2 ** heldBits;
      heldBits += 8;
    }
    const value = held % 2 ** bits;
    out[i] = value;
    held = (held - value) / 2 ** bits;
    heldBits -= bits;
  }
  return out;
}
