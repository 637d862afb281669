import { BackwardBits } from './backward-bits.ts';
import { buildFseTable, constantFseTable, type FseTable, failZstd, readFseTable } from './zstd-fse.ts';

/** Bases and extra bits of literal and match lengths by code. Source: RFC 8878, tables 15 and 16. */
const LITERAL_BITS = [...zeros(16), 1, 1, 1, 1, 2, 2, 3, 3, 4, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16];
const LITERAL_BASE = bases(LITERAL_BITS, 0);
const MATCH_BITS = [...zeros(32), 1, 1, 1, 1, 2, 2, 3, 3, 4, 4, 5, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16];
const MATCH_BASE = bases(MATCH_BITS, 3);

interface Kind {
  readonly log: number;
  readonly symbols: number;
  readonly usual: FseTable;
}

/** The three codes of a sequence in the order of their tables, with their usual tables. Source: RFC 8878, section 3.1.1.3.2.2. */
const KINDS: readonly [Kind, Kind, Kind] = [
  {
    log: 9,
    symbols: 35,
    usual: buildFseTable(
      [4, 3, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 1, 1, 1, 2, 2, 2, 2, 2, 2, 2, 2, 2, 3, 2, 1, 1, 1, 1, 1, -1, -1, -1, -1],
      6,
    ),
  },
  {
    log: 8,
    symbols: 31,
    usual: buildFseTable(
      [1, 1, 1, 1, 1, 1, 2, 2, 2, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, -1, -1, -1, -1, -1],
      5,
    ),
  },
  {
    log: 9,
    symbols: 52,
    usual: buildFseTable(
      [
        1, 4, 3, 2, 2, 2, 2, 2, 2, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1,
        1, 1, 1, 1, 1, 1, 1, 1, 1, -1, -1, -1, -1, -1, -1, -1,
      ],
      6,
    ),
  },
];

export type SequenceTables = readonly [FseTable, FseTable, FseTable];

/** One step of a block: so many literals, then so many bytes again from so far back. */
export type EachSequence = (literals: number, match: number, offset: number) => boolean;

/**
 * Reads the sequences of a compressed block and hands each to `each` until it answers false. `offset` is the stated one:
 * 1 to 3 mean offsets used before. Answers the tables that a later block may use again. Source: RFC 8878, section 3.1.1.3.2.
 */
export function readSequences(
  section: Uint8Array,
  kept: SequenceTables | null,
  each: EachSequence,
): SequenceTables | null {
  const head = sequenceCount(section);
  if (head.count === 0) return kept;
  const modes = section[head.next] ?? failZstd('a block that stops early', 'sequences');
  if ((modes & 3) !== 0) failZstd('an unknown way to code sequences', 'one of RFC 8878');
  let at = head.next + 1;
  const tables = KINDS.map((kind, i) => {
    const read = readTable(section, at, { kind, mode: (modes >> (6 - 2 * i)) & 3, kept: kept?.[i] ?? null });
    at = read.next;
    return read.table;
  });
  const [literals, offsets, matches] = tables;
  if (literals === undefined || offsets === undefined || matches === undefined) return failZstd('no tables', 'three');
  run(new BackwardBits(section.subarray(at)), [literals, offsets, matches], head.count, each);
  return [literals, offsets, matches];
}

function run(
  bits: BackwardBits,
  [literals, offsets, matches]: SequenceTables,
  count: number,
  each: EachSequence,
): void {
  let literalState = bits.take(literals.log);
  let offsetState = bits.take(offsets.log);
  let matchState = bits.take(matches.log);
  for (let i = 0; i < count; i++) {
    const offsetCode = offsets.symbols[offsetState] as number;
    const matchCode = matches.symbols[matchState] as number;
    const literalCode = literals.symbols[literalState] as number;
    const offset = 2 ** offsetCode + bits.take(offsetCode);
    const match = (MATCH_BASE[matchCode] as number) + bits.take(MATCH_BITS[matchCode] as number);
    const literal = (LITERAL_BASE[literalCode] as number) + bits.take(LITERAL_BITS[literalCode] as number);
    if (bits.left < 0) failZstd('too few bits', `${count} sequences`);
    if (!each(literal, match, offset)) return;
    if (i + 1 === count) break;
    literalState = (literals.base[literalState] as number) + bits.take(literals.bits[literalState] as number);
    matchState = (matches.base[matchState] as number) + bits.take(matches.bits[matchState] as number);
    offsetState = (offsets.base[offsetState] as number) + bits.take(offsets.bits[offsetState] as number);
  }
  if (bits.left !== 0) failZstd('bits left over', `${count} sequences`);
}

function sequenceCount(section: Uint8Array): { count: number; next: number } {
  const [first, second, third] = section;
  if (first === undefined) failZstd('a block that stops early', 'sequences');
  if (first < 128) return { count: first, next: 1 };
  if (second === undefined) failZstd('a block that stops early', 'sequences');
  if (first < 255) return { count: ((first - 128) << 8) + second, next: 2 };
  if (third === undefined) failZstd('a block that stops early', 'sequences');
  return { count: second + (third << 8) + 0x7f00, next: 3 };
}

const USUAL = 0;
const CONSTANT = 1;
const STATED = 2;

function readTable(
  section: Uint8Array,
  at: number,
  { kind, mode, kept }: { kind: Kind; mode: number; kept: FseTable | null },
): { table: FseTable; next: number } {
  if (mode === USUAL) return { table: kind.usual, next: at };
  if (mode === STATED) return readFseTable(section, at, kind);
  if (mode === CONSTANT) {
    const symbol = section[at] ?? failZstd('a block that stops early', 'a table');
    if (symbol > kind.symbols) failZstd(`symbol ${symbol}`, `at most ${kind.symbols}`);
    return { table: constantFseTable(symbol), next: at + 1 };
  }
  if (kept === null) failZstd('a table that no block before stated', 'a table');
  return { table: kept, next: at };
}

function zeros(count: number): number[] {
  return new Array<number>(count).fill(0);
}

function bases(bits: readonly number[], first: number): number[] {
  let next = first;
  return bits.map((width) => {
    const base = next;
    next += 2 ** width;
    return base;
  });
}
