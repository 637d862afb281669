import { failLerc, LERC_TYPES, LercCursor, type LercType } from './lerc-cursor.ts';

/** What a LERC blob says about itself. Source: Esri, LERC specification (github.com/Esri/lerc), Lerc2 versions 3 to 6. */
export interface LercHeader {
  readonly version: number;
  readonly rows: number;
  readonly columns: number;
  /** Values of a cell. */
  readonly depth: number;
  readonly validCells: number;
  /** Side of the small squares that are packed on their own. */
  readonly square: number;
  readonly type: LercType;
  /** Largest error that the writer allowed; 0 or 0.5 means none. */
  readonly tolerance: number;
  readonly lowest: number;
  readonly highest: number;
}

const MAGIC = 'Lerc2 ';
const FIRST_VERSION = 3;
const LAST_VERSION = 6;
const CHECKED_FROM = MAGIC.length + 8;
const MOST_SQUARE = 256;

/** Reads the header and checks the sum over the rest; leaves the cursor behind the header. */
export function readLercHeader(bytes: Uint8Array): { header: LercHeader; cursor: LercCursor } {
  const cursor = new LercCursor(bytes, 0);
  const magic = String.fromCharCode(...cursor.run(MAGIC.length));
  if (magic !== MAGIC) failLerc(`a blob that starts "${magic}"`, `"${MAGIC}"`);
  const version = cursor.int32();
  if (version < FIRST_VERSION || version > LAST_VERSION) {
    failLerc(`LERC 2 version ${version}`, `versions ${FIRST_VERSION} to ${LAST_VERSION}`);
  }
  const checksum = cursor.uint32();
  const rows = cursor.int32();
  const columns = cursor.int32();
  const depth = version >= 4 ? cursor.int32() : 1;
  const validCells = cursor.int32();
  const square = cursor.int32();
  const size = cursor.int32();
  const type = LERC_TYPES[cursor.int32()] ?? failLerc('an unknown kind of number', 'a kind of LERC 2');
  if (version >= 6) cursor.run(8);
  const tolerance = cursor.float64();
  const lowest = cursor.float64();
  const highest = cursor.float64();
  if (version >= 6) cursor.run(16);
  if (size < CHECKED_FROM || size > bytes.length) failLerc(`a blob of ${size} bytes`, `at most ${bytes.length}`);
  if (fletcher32(bytes.subarray(CHECKED_FROM, size)) !== checksum) failLerc('a wrong check sum', 'a whole blob');
  if (square < 1 || square > MOST_SQUARE) failLerc(`squares of ${square} cells`, `1 to ${MOST_SQUARE}`);
  if (!Number.isFinite(tolerance) || tolerance < 0) failLerc(`a tolerance of ${tolerance}`, '0 or more');
  return {
    header: { version, rows, columns, depth, validCells, square, type, tolerance, lowest, highest },
    cursor: new LercCursor(bytes.subarray(0, size), cursor.at),
  };
}

/** Fletcher's check sum over pairs of bytes. Source: J. Fletcher, IEEE Transactions on Communications 30 (1982), as LERC uses it. */
function fletcher32(bytes: Uint8Array): number {
  let low = 0xffff;
  let high = 0xffff;
  const even = bytes.length - (bytes.length % 2);
  for (let i = 0; i < even; ) {
    const end = Math.min(i + 718, even);
    for (; i < end; i += 2) {
      low += ((bytes[i] as number) << 8) | (bytes[i + 1] as number);
      high += low;
    }
    low = (low & 0xffff) + (low >>> 16);
    high = (high & 0xffff) + (high >>> 16);
  }
  if (even < bytes.length) {
    low += (bytes[even] as number) << 8;
    high += low;
  }
  low = (low & 0xffff) + (low >>> 16);
  high = (high & 0xffff) + (high >>> 16);
  return ((high << 16) | (low & 0xffff)) >>> 0;
}
