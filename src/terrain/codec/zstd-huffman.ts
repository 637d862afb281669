import { BackwardBits, highestBit } from './backward-bits.ts';
import { failZstd, readFseTable } from './zstd-fse.ts';

/** A literal code: the next `log` bits lead to a symbol and to the length of its code. */
export interface LiteralCode {
  readonly log: number;
  readonly symbols: Uint8Array;
  readonly bits: Uint8Array;
}

const MOST_BITS = 11;
const MOST_WEIGHTS = 255;
const WEIGHT_LOG = 6;

/** Reads a literal code's description; answers the code and the index of the byte after it. Source: RFC 8878, 4.2.1. */
export function readLiteralCode(data: Uint8Array, from: number): { code: LiteralCode; next: number } {
  const head = data[from] ?? failZstd('a block that stops early', 'the code of its literals');
  const start = from + 1;
  if (head < 128) {
    const next = start + head;
    if (next > data.length) failZstd('a block that stops early', 'the code of its literals');
    return { code: codeFromWeights(packedWeights(data.subarray(start, next))), next };
  }
  const count = head - 127;
  const next = start + ((count + 1) >> 1);
  if (next > data.length) failZstd('a block that stops early', 'the code of its literals');
  const weights: number[] = [];
  for (let i = 0; i < count; i++) {
    const pair = data[start + (i >> 1)] as number;
    weights.push(i % 2 === 0 ? pair >> 4 : pair & 15);
  }
  return { code: codeFromWeights(weights), next };
}

/** Weights under a finite-state code with two states that take turns. */
function packedWeights(data: Uint8Array): number[] {
  const { table, next } = readFseTable(data, 0, { log: WEIGHT_LOG, symbols: MOST_BITS + 1 });
  const bits = new BackwardBits(data.subarray(next));
  let state = bits.take(table.log);
  let other = bits.take(table.log);
  const weights: number[] = [];
  if (bits.left < 0) failZstd('too few bits', 'the code of its literals');
  while (weights.length < MOST_WEIGHTS) {
    weights.push(table.symbols[state] as number);
    const width = table.bits[state] as number;
    if (width > bits.left) {
      weights.push(table.symbols[other] as number);
      return weights;
    }
    const renewed = (table.base[state] as number) + bits.take(width);
    state = other;
    other = renewed;
  }
  return failZstd('more weights than symbols', `at most ${MOST_WEIGHTS}`);
}

function codeFromWeights(stated: readonly number[]): LiteralCode {
  let sum = 0;
  for (const weight of stated) {
    if (weight > MOST_BITS) failZstd(`weight ${weight}`, `at most ${MOST_BITS}`);
    if (weight > 0) sum += 1 << (weight - 1);
  }
  if (sum === 0) failZstd('a code of no symbols', 'weights');
  const log = highestBit(sum) + 1;
  const left = (1 << log) - sum;
  if (log > MOST_BITS || (left & (left - 1)) !== 0) failZstd('weights that do not add up', 'a whole code');
  const weights = [...stated, highestBit(left) + 1];
  if (weights.length > MOST_WEIGHTS + 1) failZstd('more weights than symbols', `at most ${MOST_WEIGHTS + 1}`);
  const symbols = new Uint8Array(1 << log);
  const bits = new Uint8Array(1 << log);
  let place = 0;
  for (let weight = 1; weight <= log; weight++) {
    for (const [symbol, own] of weights.entries()) {
      if (own !== weight) continue;
      const end = place + (1 << (weight - 1));
      symbols.fill(symbol, place, end);
      bits.fill(log + 1 - weight, place, end);
      place = end;
    }
  }
  return { log, symbols, bits };
}

/** Decodes one stream of literals into `out`, filling it exactly. */
export function decodeLiterals(data: Uint8Array, out: Uint8Array, code: LiteralCode): void {
  const bits = new BackwardBits(data);
  const { log, symbols, bits: widths } = code;
  const mask = (1 << log) - 1;
  let left = bits.left;
  let i = 0;
  // While a whole code lies above the start of the stream, three bytes hold it.
  for (; i < out.length && left >= log; i++) {
    const at = left - log;
    const byte = at >> 3;
    const word = (data[byte] as number) | ((data[byte + 1] as number) << 8) | ((data[byte + 2] as number) << 16);
    const next = (word >>> (at & 7)) & mask;
    out[i] = symbols[next] as number;
    left -= widths[next] as number;
  }
  bits.left = left;
  for (; i < out.length; i++) {
    const next = bits.peek(log);
    out[i] = symbols[next] as number;
    bits.left -= widths[next] as number;
    if (bits.left < 0) failZstd('too few bits', `${out.length} literals`);
  }
  if (bits.left !== 0) failZstd('bits left over', `${out.length} literals`);
}
