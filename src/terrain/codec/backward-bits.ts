/** Reads a ZSTD bitstream, which starts at its end: below the highest bit set in its last byte. Source: RFC 8878, 4.1. */
export class BackwardBits {
  readonly #data: Uint8Array;
  /** Bits left; below 0 the stream has given more than it held, as zeros. */
  left: number;

  constructor(data: Uint8Array) {
    this.#data = data;
    const last = data.at(-1) ?? 0;
    // A last byte of 0 holds no end mark; the stream then counts as overdrawn from the start.
    this.left = last === 0 ? -1 : (data.length - 1) * 8 + highestBit(last);
  }

  /** The next `count` bits, up to 31. */
  take(count: number): number {
    if (count > 16) {
      const high = this.take(count - 16);
      return high * 65536 + this.take(16);
    }
    const value = this.peek(count);
    this.left -= count;
    return value;
  }

  /** The next `count` bits, up to 16, without using them up. */
  peek(count: number): number {
    const at = this.left - count;
    const data = this.#data;
    if (at < 0) {
      const held =
        ((data[0] ?? 0) | ((data[1] ?? 0) << 8) | ((data[2] ?? 0) << 16)) & ((1 << Math.max(0, this.left)) - 1);
      return at > -count ? held << -at : 0;
    }
    const byte = at >> 3;
    // Beyond the end a typed array gives nothing, which counts as 0 here.
    const word = (data[byte] as number) | ((data[byte + 1] as number) << 8) | ((data[byte + 2] as number) << 16);
    return (word >>> (at & 7)) & ((1 << count) - 1);
  }
}

/** Index of the highest bit set in a positive whole number. */
export function highestBit(value: number): number {
  return 31 - Math.clz32(value);
}
