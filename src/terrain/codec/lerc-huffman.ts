import { readPackedNumbers } from './lerc-bits.ts';
import { failLerc, type LercCursor } from './lerc-cursor.ts';
import type { LercHeader } from './lerc-header.ts';

const SYMBOLS = 256;
const MOST_BITS = 32;
const FIRST_TABLE_VERSION = 2;

/** Words of four bytes, low byte first, read from their highest bit down. */
class WordBits {
  readonly #bytes: Uint8Array;
  #at: number;
  #bit = 0;

  constructor(bytes: Uint8Array, at: number) {
    this.#bytes = bytes;
    this.#at = at;
  }

  /** Index of the word after the last one begun. */
  get next(): number {
    return this.#bit > 0 ? this.#at + 4 : this.#at;
  }

  bit(): number {
    const byte = this.#bytes[this.#at + 3 - (this.#bit >> 3)];
    if (byte === undefined) failLerc('a blob that stops early', 'more codes');
    const value = (byte >> (7 - (this.#bit & 7))) & 1;
    if (++this.#bit === 32) {
      this.#bit = 0;
      this.#at += 4;
    }
    return value;
  }
}

/** A binary tree as pairs of places: below 0 stands a symbol, 0 leads nowhere. */
type CodeTree = Int32Array;

/** Reads the values of 8-bit numbers under a prefix code, as they are or as differences. Source: Esri, LERC specification. */
export function readLercHuffman(
  cursor: LercCursor,
  header: LercHeader,
  form: { differences: boolean; valid: Uint8Array; values: Int16Array },
): void {
  const { tree, next } = readCode(cursor);
  const bits = new WordBits(cursor.bytes, next);
  const signed = header.type === 'int8';
  const shift = signed ? 128 : 0;
  const wrap = (value: number) => (signed ? (value << 24) >> 24 : value & 255);
  const symbol = () => wrap(readSymbol(bits, tree) - shift);
  if (form.differences) readDifferences(header, form, (last) => wrap(last + symbol()));
  else readPlain(header, form, symbol);
}

function readPlain(header: LercHeader, form: { valid: Uint8Array; values: Int16Array }, symbol: () => number): void {
  const { depth } = header;
  for (let cell = 0; cell < form.valid.length; cell++) {
    if (form.valid[cell] === 0) continue;
    for (let d = 0; d < depth; d++) form.values[cell * depth + d] = symbol();
  }
}

/** Each value differs from its left neighbour, else from the one above, else from the one read last. */
function readDifferences(
  { columns, rows, depth }: LercHeader,
  { valid, values }: { valid: Uint8Array; values: Int16Array },
  add: (last: number) => number,
): void {
  for (let d = 0; d < depth; d++) {
    let last = 0;
    for (let row = 0, cell = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++, cell++) {
        if (valid[cell] === 0) continue;
        const left = column > 0 && valid[cell - 1] === 1;
        const above = row > 0 && valid[cell - columns] === 1;
        const from = !left && above ? (values[(cell - columns) * depth + d] as number) : last;
        last = add(from);
        values[cell * depth + d] = last;
      }
    }
  }
}

function readSymbol(bits: WordBits, tree: CodeTree): number {
  let place = 0;
  for (;;) {
    const step = tree[2 * place + bits.bit()] as number;
    if (step < 0) return -step - 1;
    if (step === 0) failLerc('an unused code', 'a code of the blob');
    place = step;
  }
}

function readCode(cursor: LercCursor): { tree: CodeTree; next: number } {
  const version = cursor.int32();
  const size = cursor.int32();
  const from = cursor.int32();
  const to = cursor.int32();
  if (version < FIRST_TABLE_VERSION || size < 1 || size > SYMBOLS || from < 0 || to <= from || to - from > size) {
    failLerc('a code table of an unknown form', `at most ${SYMBOLS} symbols`);
  }
  const lengths = readPackedNumbers(cursor, size);
  if (lengths.length !== to - from) failLerc(`${lengths.length} code lengths`, `${to - from}`);
  const bits = new WordBits(cursor.bytes, cursor.at);
  const tree = new Int32Array(2 * (SYMBOLS * MOST_BITS + 1));
  let used = 1;
  for (const [i, length] of lengths.entries()) {
    if (length > MOST_BITS) failLerc(`a code of ${length} bits`, `at most ${MOST_BITS}`);
    let place = 0;
    for (let k = 0; k < length; k++) {
      const slot = 2 * place + bits.bit();
      const held = tree[slot] as number;
      if (held < 0 || (k + 1 === length && held !== 0)) failLerc('codes that begin alike', 'a prefix code');
      if (k + 1 === length) tree[slot] = -(((from + i) % size) + 1);
      else if (held === 0) tree[slot] = used++;
      place = tree[slot] as number;
    }
  }
  return { tree, next: bits.next };
}
