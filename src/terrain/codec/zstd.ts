import { failZstd } from './zstd-fse.ts';
import type { LiteralCode } from './zstd-huffman.ts';
import { littleEndian, readLiterals } from './zstd-literals.ts';
import { readSequences, type SequenceTables } from './zstd-sequences.ts';

const MAGIC = 0xfd2fb528;
const SKIPPABLE = 0x184d2a50;
const MOST_BLOCK_BYTES = 128 * 1024;
const RAW = 0;
const REPEATED_BYTE = 1;
const COMPRESSED = 2;
/** Runs longer than this are copied at once. */
const LONG_RUN = 32;

/**
 * Unpacks ZSTD frames into at most `most` bytes. What would come beyond that is not unpacked.
 *
 * A frame's own check sum, when it has one, is not looked at: TIFF writers leave it out. Source: RFC 8878.
 */
export function unpackZstd(packed: Uint8Array, most: number): Uint8Array {
  const out = new ZstdOutput(most);
  let at = 0;
  while (at < packed.length && !out.full) {
    const magic = littleEndian(packed, at, 4);
    if (magic - (magic % 16) === SKIPPABLE) at += 8 + littleEndian(packed, at + 4, 4);
    else if (magic === MAGIC) at = unpackFrame(packed, at + 4, out);
    else failZstd(`a frame that starts ${magic.toString(16)}`, 'a ZSTD frame');
  }
  return out.bytes.subarray(0, out.written);
}

/** Unpacks one frame from after its magic number; answers the index of the byte after it. */
function unpackFrame(packed: Uint8Array, from: number, out: ZstdOutput): number {
  const descriptor = littleEndian(packed, from, 1);
  const single = (descriptor & 32) !== 0;
  const checksum = (descriptor & 4) !== 0;
  const dictionary = [0, 1, 2, 4][descriptor & 3] as number;
  if ((descriptor & 8) !== 0) failZstd('a reserved bit', 'a frame of RFC 8878');
  if (dictionary > 0 && littleEndian(packed, from + 1 + (single ? 0 : 1), dictionary) !== 0) {
    failZstd('a frame under a dictionary', 'a frame of its own');
  }
  const sizeBytes = descriptor >> 6 === 0 ? (single ? 1 : 0) : 1 << (descriptor >> 6);
  let at = from + 1 + (single ? 0 : 1) + dictionary + sizeBytes;
  out.startFrame();
  for (let last = false; !last; ) {
    const head = littleEndian(packed, at, 3);
    at += 3;
    last = (head & 1) === 1;
    const kind = (head >> 1) & 3;
    const size = head >> 3;
    const held = kind === REPEATED_BYTE ? 1 : size;
    if (at + held > packed.length) failZstd('a stream that stops early', `a block of ${held} bytes`);
    const block = packed.subarray(at, at + held);
    if (kind === RAW) out.append(block);
    else if (kind === REPEATED_BYTE) out.repeat(block[0] as number, size);
    else if (kind === COMPRESSED) out.unpackBlock(block);
    else failZstd('a block of an unknown kind', 'a kind of RFC 8878');
    at += held;
    if (out.full) return packed.length;
  }
  return at + (checksum ? 4 : 0);
}

/** The bytes unpacked so far and what a frame's blocks hand on to one another. */
class ZstdOutput {
  readonly bytes: Uint8Array;
  written = 0;
  #frameStart = 0;
  #code: LiteralCode | null = null;
  #tables: SequenceTables | null = null;
  #first = 1;
  #second = 4;
  #third = 8;

  constructor(length: number) {
    this.bytes = new Uint8Array(length);
  }

  get full(): boolean {
    return this.written >= this.bytes.length;
  }

  startFrame(): void {
    this.#frameStart = this.written;
    this.#code = null;
    this.#tables = null;
    this.#first = 1;
    this.#second = 4;
    this.#third = 8;
  }

  append(data: Uint8Array): void {
    const fits = data.subarray(0, this.bytes.length - this.written);
    this.bytes.set(fits, this.written);
    this.written += fits.length;
  }

  repeat(byte: number, count: number): void {
    const end = Math.min(this.bytes.length, this.written + count);
    this.bytes.fill(byte, this.written, end);
    this.written = end;
  }

  unpackBlock(block: Uint8Array): void {
    const { bytes, next, code } = readLiterals(block, this.#code);
    this.#code = code;
    const end = this.written + MOST_BLOCK_BYTES;
    let used = 0;
    this.#tables = readSequences(block.subarray(next), this.#tables, (literals, match, stated) => {
      if (used + literals > bytes.length) failZstd('more literals than the block holds', `${bytes.length}`);
      this.#copyLiterals(bytes, used, literals);
      used += literals;
      this.#copyBack(this.#offset(stated, literals), match);
      if (this.written > end) failZstd('a block that grows too large', `at most ${MOST_BLOCK_BYTES} bytes`);
      return !this.full;
    });
    this.append(bytes.subarray(used));
  }

  #copyLiterals(bytes: Uint8Array, from: number, count: number): void {
    const { bytes: out } = this;
    const end = Math.min(out.length, this.written + count);
    let source = from;
    let to = this.written;
    while (to < end) out[to++] = bytes[source++] as number;
    this.written = to;
  }

  #copyBack(offset: number, length: number): void {
    if (offset > this.written - this.#frameStart) {
      failZstd(`a run from ${offset} bytes back`, `at most ${this.written - this.#frameStart} bytes back`);
    }
    const { bytes } = this;
    const end = Math.min(bytes.length, this.written + length);
    let from = this.written - offset;
    let to = this.written;
    if (offset >= length && length > LONG_RUN) {
      bytes.copyWithin(to, from, from + end - to);
      this.written = end;
      return;
    }
    while (to < end) bytes[to++] = bytes[from++] as number;
    this.written = to;
  }

  /** Turns a stated offset into bytes back, keeping the three used last. Source: RFC 8878, section 3.1.1.5. */
  #offset(stated: number, literals: number): number {
    const choice = stated > 3 ? 0 : literals === 0 ? stated + 1 : stated;
    if (choice === 1) return this.#first;
    const offset = this.#chosen(stated, choice);
    if (offset < 1) failZstd('an offset of 0', 'at least 1');
    if (choice !== 2) this.#third = this.#second;
    this.#second = this.#first;
    this.#first = offset;
    return offset;
  }

  #chosen(stated: number, choice: number): number {
    if (choice === 0) return stated - 3;
    if (choice === 2) return this.#second;
    return choice === 3 ? this.#third : this.#first - 1;
  }
}
