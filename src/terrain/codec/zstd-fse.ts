import { refuse } from '../bytes/file-refusal.ts';
import { highestBit } from './backward-bits.ts';

/** A finite-state entropy table: for each state its symbol, the bits to read and what they are added to. */
export interface FseTable {
  readonly log: number;
  readonly symbols: Uint8Array;
  readonly bits: Uint8Array;
  readonly base: Uint16Array;
}

/** Reads a table's description; answers the table and the index of the byte after it. Source: RFC 8878, 4.1.1. */
export function readFseTable(
  data: Uint8Array,
  from: number,
  limits: { log: number; symbols: number },
): { table: FseTable; next: number } {
  let at = from * 8;
  const peek = (count: number) => {
    const byte = at >> 3;
    const word = (data[byte] ?? 0) | ((data[byte + 1] ?? 0) << 8) | ((data[byte + 2] ?? 0) << 16);
    return (word >>> (at & 7)) & ((1 << count) - 1);
  };
  const log = peek(4) + 5;
  at += 4;
  if (log > limits.log) failZstd(`a table of 2^${log} states`, `at most 2^${limits.log}`);
  const counts: number[] = [];
  let left = 1 << log;
  while (left > 0) {
    if (counts.length > limits.symbols) failZstd('more symbols than there are', `at most ${limits.symbols + 1}`);
    const width = highestBit(left + 1) + 1;
    const low = (1 << (width - 1)) - 1;
    const spare = (1 << width) - 1 - (left + 1);
    let value = peek(width);
    if ((value & low) < spare) {
      at += width - 1;
      value &= low;
    } else {
      at += width;
      if (value > low) value -= spare;
    }
    const count = value - 1;
    counts.push(count);
    left -= Math.abs(count);
    for (let more = count === 0; more; ) {
      const zeros = peek(2);
      at += 2;
      for (let i = 0; i < zeros; i++) counts.push(0);
      more = zeros === 3;
      if (counts.length > limits.symbols + 1) failZstd('more symbols than there are', `at most ${limits.symbols + 1}`);
    }
  }
  const next = (at + 7) >> 3;
  if (left < 0 || next > data.length) failZstd('a table that does not add up', 'counts that fill it');
  return { table: buildFseTable(counts, log), next };
}

/** Spreads symbols over the states by their counts; −1 stands for a count below one. Source: RFC 8878, 4.1.1. */
export function buildFseTable(counts: readonly number[], log: number): FseTable {
  const size = 1 << log;
  const symbols = new Uint8Array(size);
  const next = counts.map((count) => Math.abs(count));
  let high = size;
  for (const [symbol, count] of counts.entries()) if (count === -1) symbols[--high] = symbol;
  const step = (size >> 1) + (size >> 3) + 3;
  let place = 0;
  for (const [symbol, count] of counts.entries()) {
    for (let i = 0; i < count; i++) {
      symbols[place] = symbol;
      do place = (place + step) & (size - 1);
      while (place >= high);
    }
  }
  const bits = new Uint8Array(size);
  const base = new Uint16Array(size);
  for (let state = 0; state < size; state++) {
    const symbol = symbols[state] as number;
    const number = next[symbol] as number;
    next[symbol] = number + 1;
    const width = log - highestBit(number);
    bits[state] = width;
    base[state] = (number << width) - size;
  }
  return { log, symbols, bits, base };
}

/** A table of one state that always gives the same symbol. */
export function constantFseTable(symbol: number): FseTable {
  return { log: 0, symbols: Uint8Array.of(symbol), bits: Uint8Array.of(0), base: Uint16Array.of(0) };
}

export function failZstd(found: string, expected: string): never {
  return refuse({ code: 'broken-block', where: 'ZSTD', found, expected });
}
