import { failZstd } from './zstd-fse.ts';
import { decodeLiterals, type LiteralCode, readLiteralCode } from './zstd-huffman.ts';

const MOST_LITERALS = 128 * 1024;
const RAW = 0;
const REPEATED_BYTE = 1;
const CODED = 2;

export interface Literals {
  readonly bytes: Uint8Array;
  /** Index of the byte after the section. */
  readonly next: number;
  /** The code that a later block may use again. */
  readonly code: LiteralCode | null;
}

/** Reads the literals section at the start of a compressed block. Source: RFC 8878, section 3.1.1.3.1. */
export function readLiterals(block: Uint8Array, kept: LiteralCode | null): Literals {
  const first = block[0] ?? failZstd('an empty block', 'literals');
  const kind = first & 3;
  const form = (first >> 2) & 3;
  if (kind === RAW || kind === REPEATED_BYTE) {
    const wide = (form & 1) === 0 ? 1 : form === 1 ? 2 : 3;
    const size = littleEndian(block, 0, wide) >> (wide === 1 ? 3 : 4);
    checkSize(size);
    if (kind === REPEATED_BYTE) {
      const byte = block[wide] ?? failZstd('a block that stops early', 'literals');
      return { bytes: new Uint8Array(size).fill(byte), next: wide + 1, code: kept };
    }
    if (wide + size > block.length) failZstd('a block that stops early', `${size} literals`);
    return { bytes: block.subarray(wide, wide + size), next: wide + size, code: kept };
  }
  return codedLiterals(block, { fresh: kind === CODED, form, kept });
}

function codedLiterals(block: Uint8Array, how: { fresh: boolean; form: number; kept: LiteralCode | null }): Literals {
  const width = how.form < 2 ? 10 : how.form === 2 ? 14 : 18;
  const head = how.form < 2 ? 3 : how.form === 2 ? 4 : 5;
  // Up to 40 bits: plain arithmetic, since bit operators stop at 32.
  const packed = Math.floor(littleEndian(block, 0, head) / 16);
  const size = packed % 2 ** width;
  const coded = Math.floor(packed / 2 ** width);
  checkSize(size);
  const end = head + coded;
  if (end > block.length) failZstd('a block that stops early', `${coded} bytes of literals`);
  let at = head;
  let code = how.kept;
  if (how.fresh) {
    const read = readLiteralCode(block.subarray(0, end), head);
    code = read.code;
    at = read.next;
  }
  if (code === null) failZstd('literals under a code that no block before stated', 'a code');
  const bytes = new Uint8Array(size);
  const data = block.subarray(at, end);
  if (how.form === 0) decodeLiterals(data, bytes, code);
  else decodeFour(data, bytes, code);
  return { bytes, next: end, code };
}

/** Four streams of equal length but for the last, after a table of the lengths of the first three. */
function decodeFour(data: Uint8Array, out: Uint8Array, code: LiteralCode): void {
  const part = (out.length + 3) >> 2;
  let at = 6;
  for (let i = 0; i < 4; i++) {
    const end = i < 3 ? at + littleEndian(data, 2 * i, 2) : data.length;
    const from = i * part;
    if (end > data.length || from > out.length) failZstd('streams longer than their block', 'four streams');
    decodeLiterals(data.subarray(at, end), out.subarray(from, i < 3 ? from + part : out.length), code);
    at = end;
  }
}

function checkSize(size: number): void {
  if (size > MOST_LITERALS) failZstd(`${size} literals`, `at most ${MOST_LITERALS}`);
}

export function littleEndian(data: Uint8Array, at: number, bytes: number): number {
  let value = 0;
  for (let i = bytes - 1; i >= 0; i--)
    value = value * 256 + (data[at + i] ?? failZstd('a stream that stops early', 'a number'));
  return value;
}
