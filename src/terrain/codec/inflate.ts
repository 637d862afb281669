import { refuse } from '../bytes/file-refusal.ts';

/** A prefix code as one table: the low bits of the stream lead straight to symbol · 16 + code length. */
interface HuffmanTable {
  readonly lookup: Uint16Array;
  readonly mask: number;
}

const MOST_BITS = 15;

/** Builds the table of a canonical code from the length of each symbol's code. Source: RFC 1951, section 3.2.2. */
function buildHuffman(lengths: Uint8Array): HuffmanTable {
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

/** Extra bits and bases of lengths and distances. Source: RFC 1951, section 3.2.5. */
const LENGTH_BASE = [
  3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 15, 17, 19, 23, 27, 31, 35, 43, 51, 59, 67, 83, 99, 115, 131, 163, 195, 227, 258,
];
const LENGTH_EXTRA = [0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5, 0];
const DISTANCE_BASE = [
  1, 2, 3, 4, 5, 7, 9, 13, 17, 25, 33, 49, 65, 97, 129, 193, 257, 385, 513, 769, 1025, 1537, 2049, 3073, 4097, 6145,
  8193, 12289, 16385, 24577,
];
const DISTANCE_EXTRA = [
  0, 0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9, 9, 10, 10, 11, 11, 12, 12, 13, 13,
];
/** Order in which a dynamic block states the lengths of its code-length codes. Source: RFC 1951, section 3.2.7. */
const CODE_ORDER = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15];
const END_OF_BLOCK = 256;

const FIXED_LITERALS = buildHuffman(
  Uint8Array.from({ length: 288 }, (_, i) => (i < 144 ? 8 : i < 256 ? 9 : i < 280 ? 7 : 8)),
);
const FIXED_DISTANCES = buildHuffman(new Uint8Array(30).fill(5));

/**
 * Unpacks a zlib stream into at most `most` bytes and checks its Adler-32 where it ends by itself.
 *
 * The output has a fixed size: a stream that would unpack to more stops there. Sources: RFC 1950; RFC 1951.
 */
export function unpackDeflate(packed: Uint8Array, most: number): Uint8Array {
  return machine?.(packed, most) ?? unpackHere(packed, most);
}

/** Unpacks a whole zlib stream that gives no more than so many bytes; null for any other, which is then looked at here. */
export type MachineInflate = (packed: Uint8Array, most: number) => Uint8Array | null;

let machine: MachineInflate | null = null;

/** Lets what the program runs on unpack sound streams, once, when it starts. */
export function inflateWith(inflate: MachineInflate | null): void {
  machine = inflate;
}

function unpackHere(packed: Uint8Array, most: number): Uint8Array {
  checkZlibHeader(packed);
  const inflater = new Inflater(packed.subarray(2), most);
  const ended = inflater.run();
  if (inflater.bytesTaken() > packed.length - 2) fail('a stream that stops early', 'its end-of-block code');
  const out = inflater.out.subarray(0, inflater.written);
  if (ended) checkAdler(out, packed, 2 + inflater.bytesTaken());
  return out;
}

class Inflater {
  readonly out: Uint8Array;
  written = 0;
  readonly #packed: Uint8Array;
  #at = 0;
  #held = 0;
  #heldBits = 0;
  #full = false;

  constructor(packed: Uint8Array, length: number) {
    this.#packed = packed;
    this.out = new Uint8Array(length);
  }

  /** Runs to the last block; true when the stream ended by itself, false when the output was full before. */
  run(): boolean {
    for (;;) {
      const last = this.#take(1) === 1;
      const kind = this.#take(2);
      if (kind === 0) this.#stored();
      else if (kind === 1) this.#coded(FIXED_LITERALS, FIXED_DISTANCES);
      else if (kind === 2) this.#dynamic();
      else fail('a block of kind 3', 'kind 0, 1 or 2');
      if (last) return this.#full === false;
      if (this.#full) return false;
    }
  }

  /** Whole bytes of the stream used so far. */
  bytesTaken(): number {
    return this.#at - (this.#heldBits >> 3);
  }

  #fill(bits: number): void {
    while (this.#heldBits < bits) {
      const byte = this.#packed[this.#at++];
      if (byte === undefined) {
        // Zero bits beyond the end let the last short code be looked up; a stream that uses them is refused.
        if (this.#at > this.#packed.length + 4) fail('a stream that stops early', 'its end-of-block code');
      }
      this.#held |= (byte ?? 0) << this.#heldBits;
      this.#heldBits += 8;
    }
  }

  #take(bits: number): number {
    if (bits === 0) return 0;
    this.#fill(bits);
    const value = this.#held & ((1 << bits) - 1);
    this.#held >>>= bits;
    this.#heldBits -= bits;
    return value;
  }

  #symbol(table: HuffmanTable): number {
    this.#fill(15);
    const entry = table.lookup[this.#held & table.mask] as number;
    const bits = entry & 15;
    if (bits === 0) fail('an unused code', 'a code of the block');
    this.#held >>>= bits;
    this.#heldBits -= bits;
    return entry >> 4;
  }

  #stored(): void {
    const back = this.#heldBits >> 3;
    this.#at -= back;
    this.#held = 0;
    this.#heldBits = 0;
    const size = this.#take(16);
    const check = this.#take(16);
    if ((size ^ check) !== 0xffff) fail('a stored block with a wrong length', 'matching lengths');
    if (this.#at + size > this.#packed.length) fail('a stream that stops early', `${size} stored bytes`);
    const run = Math.min(size, this.out.length - this.written);
    this.out.set(this.#packed.subarray(this.#at, this.#at + run), this.written);
    this.written += run;
    this.#at += size;
    if (run < size) this.#full = true;
  }

  #dynamic(): void {
    const literals = this.#take(5) + 257;
    const distances = this.#take(5) + 1;
    const codes = this.#take(4) + 4;
    const codeLengths = new Uint8Array(19);
    for (let i = 0; i < codes; i++) codeLengths[CODE_ORDER[i] as number] = this.#take(3);
    const lengths = this.#codeLengths(buildHuffman(codeLengths), literals + distances);
    if (lengths[END_OF_BLOCK] === 0) fail('a block without an end', 'an end-of-block code');
    this.#coded(buildHuffman(lengths.subarray(0, literals)), buildHuffman(lengths.subarray(literals)));
  }

  #codeLengths(table: HuffmanTable, count: number): Uint8Array {
    const lengths = new Uint8Array(count);
    let at = 0;
    while (at < count) {
      const symbol = this.#symbol(table);
      if (symbol < 16) {
        lengths[at++] = symbol;
        continue;
      }
      if (symbol === 16 && at === 0) fail('a repeat before the first length', 'a length to repeat');
      const value = symbol === 16 ? (lengths[at - 1] as number) : 0;
      const run = symbol === 16 ? 3 + this.#take(2) : symbol === 17 ? 3 + this.#take(3) : 11 + this.#take(7);
      if (at + run > count) fail('more code lengths than stated', `${count}`);
      lengths.fill(value, at, at + run);
      at += run;
    }
    return lengths;
  }

  /**
   * The symbols of one block. What is held of the stream is kept in variables of the loop and filled up four bytes at a time, to
   * 25 bits at least: a length with its extra bits and a distance code need 20 and 15, so both are filled for.
   */
  #coded(literals: HuffmanTable, distances: HuffmanTable): void {
    const { out } = this;
    const packed = this.#packed;
    const { lookup, mask } = literals;
    const far = distances.lookup;
    const farMask = distances.mask;
    const most = out.length;
    const lastWhole = packed.length - 1;
    let written = this.written;
    let held = this.#held;
    let heldBits = this.#heldBits;
    let at = this.#at;
    for (;;) {
      while (heldBits <= 24) {
        held |= at <= lastWhole ? (packed[at] as number) << heldBits : 0;
        at++;
        heldBits += 8;
      }
      if (at > packed.length + 8) fail('a stream that stops early', 'its end-of-block code');
      const entry = lookup[held & mask] as number;
      const bits = entry & 15;
      if (bits === 0) fail('an unused code', 'a code of the block');
      held >>>= bits;
      heldBits -= bits;
      const symbol = entry >> 4;
      if (symbol === END_OF_BLOCK) break;
      if (written >= most) {
        this.#full = true;
        break;
      }
      if (symbol < END_OF_BLOCK) {
        out[written++] = symbol;
        continue;
      }
      const lengthCode = symbol - 257;
      const base = LENGTH_BASE[lengthCode] ?? fail(`length code ${lengthCode}`, 'at most 28');
      const extra = LENGTH_EXTRA[lengthCode] as number;
      const run = base + (held & ((1 << extra) - 1));
      held >>>= extra;
      heldBits -= extra;
      while (heldBits <= 24) {
        held |= at <= lastWhole ? (packed[at] as number) << heldBits : 0;
        at++;
        heldBits += 8;
      }
      const farEntry = far[held & farMask] as number;
      const farBits = farEntry & 15;
      if (farBits === 0) fail('an unused code', 'a code of the block');
      held >>>= farBits;
      heldBits -= farBits;
      const distanceCode = farEntry >> 4;
      const farBase = DISTANCE_BASE[distanceCode] ?? fail(`distance code ${distanceCode}`, 'at most 29');
      const farExtra = DISTANCE_EXTRA[distanceCode] as number;
      while (heldBits < farExtra) {
        held |= at <= lastWhole ? (packed[at] as number) << heldBits : 0;
        at++;
        heldBits += 8;
      }
      const distance = farBase + (held & ((1 << farExtra) - 1));
      held >>>= farExtra;
      heldBits -= farExtra;
      if (distance > written) fail(`a run from ${distance} bytes back`, `at most ${written} bytes back`);
      if (run > most - written) this.#full = true;
      const end = Math.min(written + run, most);
      if (distance >= run && run > LONG_RUN) {
        out.copyWithin(written, written - distance, end - distance);
        written = end;
      } else {
        let from = written - distance;
        while (written < end) out[written++] = out[from++] as number;
      }
    }
    this.written = written;
    this.#held = held;
    this.#heldBits = heldBits;
    this.#at = at;
  }
}

/** From this length on a run is copied at once. */
const LONG_RUN = 64;

function checkZlibHeader(packed: Uint8Array): void {
  const method = packed[0] ?? 0;
  const flags = packed[1] ?? 0;
  const good = (method & 15) === 8 && method >> 4 <= 7 && ((method << 8) | flags) % 31 === 0 && (flags & 32) === 0;
  if (!good) fail(`a stream that starts ${method.toString(16)} ${flags.toString(16)}`, 'a zlib stream');
}

/** Adler-32 of the bytes against the four that end the stream. Source: RFC 1950, section 8. */
function checkAdler(out: Uint8Array, packed: Uint8Array, at: number): void {
  if (at + 4 > packed.length) fail('a stream without its check sum', 'a check sum');
  const stated = new DataView(packed.buffer, packed.byteOffset + at, 4).getUint32(0);
  let a = 1;
  let b = 0;
  for (let i = 0; i < out.length; ) {
    const end = Math.min(i + 3800, out.length);
    for (; i < end; i++) {
      a += out[i] as number;
      b += a;
    }
    a %= 65521;
    b %= 65521;
  }
  if (((b << 16) | a) >>> 0 !== stated) fail('a wrong check sum', 'bytes that match their check sum');
}

function fail(found: string, expected: string): never {
  return refuse({ code: 'broken-block', where: 'DEFLATE', found, expected });
}
