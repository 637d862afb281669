import { refuse } from '../bytes/file-refusal.ts';

const MOST_LETTERS = 64;
/** Tab, line feed, vertical tab, form feed, carriage return and space; a file of NULs is a hole, not a text. */
const isBlank = (byte: number) => byte === 32 || (byte >= 9 && byte <= 13);
/** Whole numbers up to this are exact, so dividing one by an exact power of ten rounds once, as reading decimals should. */
const MOST_EXACT = 2 ** 53;
const MOST_EXACT_POWER = 22;

/** Reads blank-separated numbers from a text that comes in pieces. */
export class AsciiNumbers {
  readonly #use: (value: number, index: number) => void;
  #count = 0;
  #pending = '';

  constructor(use: (value: number, index: number) => void) {
    this.#use = use;
  }

  get count(): number {
    return this.#count;
  }

  add(bytes: Uint8Array): void {
    let at = 0;
    while (at < bytes.length) {
      if (isBlank(bytes[at] as number)) {
        this.#finish();
        at++;
        continue;
      }
      let end = at;
      while (end < bytes.length && !isBlank(bytes[end] as number)) end++;
      if (this.#pending === '' && end < bytes.length) this.#emit(parse(bytes, at, end));
      else this.#pending = this.#joined(bytes.subarray(at, end));
      at = end;
    }
  }

  end(): void {
    this.#finish();
  }

  #joined(part: Uint8Array): string {
    if (this.#pending.length + part.length > MOST_LETTERS) refuseNumber(this.#pending, this.#count);
    return this.#pending + String.fromCharCode(...part);
  }

  #finish(): void {
    if (this.#pending === '') return;
    const value = slowParse(this.#pending);
    this.#pending = '';
    this.#emit(value);
  }

  #emit(value: number | null): void {
    if (value === null) refuseNumber('something else', this.#count);
    this.#use(value, this.#count++);
  }
}

/** Plain decimals by arithmetic; anything else the slow way. */
function parse(bytes: Uint8Array, from: number, to: number): number | null {
  let at = from;
  const negative = bytes[at] === 45;
  if (negative) at++;
  let digits = 0;
  let point = -1;
  const first = at;
  for (; at < to; at++) {
    const byte = bytes[at] as number;
    if (byte === 46 && point < 0) point = at;
    else if (byte >= 48 && byte <= 57) digits = digits * 10 + byte - 48;
    else return slowParse(String.fromCharCode(...bytes.subarray(from, Math.min(to, from + MOST_LETTERS + 1))));
  }
  const decimals = point < 0 ? 0 : to - point - 1;
  const written = to - first - (point < 0 ? 0 : 1);
  if (written === 0 || digits > MOST_EXACT || decimals > MOST_EXACT_POWER) {
    return slowParse(String.fromCharCode(...bytes.subarray(from, Math.min(to, from + MOST_LETTERS + 1))));
  }
  const value = digits / 10 ** decimals;
  return negative ? -value : value;
}

/** Any number in words that programs write; NaN stands for "no height". */
function slowParse(text: string): number | null {
  if (text.length > MOST_LETTERS) return null;
  if (/^[-+]?nan$/i.test(text)) return Number.NaN;
  if (!/^[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?$/.test(text)) return null;
  return Number(text);
}

function refuseNumber(found: string, index: number): never {
  return refuse({
    code: 'ascii-number',
    where: `value ${index}`,
    found,
    expected: 'a number with a decimal point, blanks between numbers',
  });
}
