import { failLerc, type LercCursor, type LercType } from './lerc-cursor.ts';
import { type LercHeader, readLercHeader } from './lerc-header.ts';
import { readLercHuffman } from './lerc-huffman.ts';
import { readLercTiles } from './lerc-tiles.ts';

/** The values of a LERC blob, those of one cell side by side, and which cells have any. */
export interface LercValues {
  readonly values: Float64Array;
  readonly valid: Uint8Array;
}

/** What the file around the blob says that it holds. */
export interface LercShape {
  readonly columns: number;
  readonly rows: number;
  readonly samples: number;
  readonly type: LercType;
}

const DIFFERENCES = 1;
const PLAIN_CODES = 2;
/** End of a mask's runs. */
const END_OF_RUNS = -32768;

/** Unpacks a LERC 2 blob. Source: Esri, LERC specification (github.com/Esri/lerc), Lerc2 versions 3 to 6. */
export function unpackLerc(packed: Uint8Array, shape: LercShape): LercValues {
  const { header, cursor } = readLercHeader(packed);
  checkShape(header, shape);
  const cells = header.rows * header.columns;
  const valid = readMask(cursor, header);
  const values = new Float64Array(cells * header.depth);
  if (header.validCells === 0) return { values, valid };
  const ranges = readRanges(cursor, header);
  if (ranges.lowest.every((low, d) => low === ranges.highest[d])) {
    fill(values, valid, ranges.lowest);
    return { values, valid };
  }
  readValues(cursor, header, { values, valid, highest: ranges.highest });
  return { values, valid };
}

function checkShape(header: LercHeader, shape: LercShape): void {
  const { columns, rows, depth, type, validCells } = header;
  const fits = columns === shape.columns && rows === shape.rows && depth === shape.samples && type === shape.type;
  if (!fits || validCells < 0 || validCells > rows * columns) {
    failLerc(
      `${columns} × ${rows} cells of ${depth} ${type}`,
      `${shape.columns} × ${shape.rows} cells of ${shape.samples} ${shape.type}`,
    );
  }
}

function readMask(cursor: LercCursor, header: LercHeader): Uint8Array {
  const cells = header.rows * header.columns;
  const valid = new Uint8Array(cells);
  const bytes = cursor.int32();
  if (bytes < 0) failLerc(`a mask of ${bytes} bytes`, '0 or more');
  const whole = header.validCells === cells;
  if (whole || header.validCells === 0) {
    cursor.run(bytes);
    return whole ? valid.fill(1) : valid;
  }
  const end = cursor.at + bytes;
  const bits = readRuns(cursor, Math.ceil(cells / 8));
  if (cursor.at !== end) failLerc('a mask longer or shorter than stated', `${bytes} bytes`);
  let count = 0;
  for (let i = 0; i < cells; i++) {
    const bit = ((bits[i >> 3] as number) >> (7 - (i & 7))) & 1;
    valid[i] = bit;
    count += bit;
  }
  if (count !== header.validCells) failLerc(`${count} cells in the mask`, `${header.validCells}`);
  return valid;
}

/** Runs of bytes: a positive count before bytes as they are, a negative one before a byte that repeats. */
function readRuns(cursor: LercCursor, length: number): Uint8Array {
  const out = new Uint8Array(length);
  let at = 0;
  for (let count = cursor.int16(); count !== END_OF_RUNS; count = cursor.int16()) {
    if (count === 0 || at + Math.abs(count) > length) failLerc('runs that do not fit their mask', `${length} bytes`);
    if (count > 0) out.set(cursor.run(count), at);
    else out.fill(cursor.byte(), at, at - count);
    at += Math.abs(count);
  }
  if (at !== length) failLerc(`${at} bytes of mask`, `${length}`);
  return out;
}

function readRanges(cursor: LercCursor, header: LercHeader): { lowest: number[]; highest: number[] } {
  if (header.version < 4) return { lowest: [header.lowest], highest: [header.highest] };
  if (header.lowest === header.highest) {
    const all = new Array<number>(header.depth).fill(header.lowest);
    return { lowest: all, highest: all };
  }
  const list = () => Array.from({ length: header.depth }, () => cursor.number(header.type));
  const lowest = list();
  return { lowest, highest: list() };
}

function fill(values: Float64Array, valid: Uint8Array, constant: readonly number[]): void {
  const depth = constant.length;
  for (let cell = 0; cell < valid.length; cell++) {
    if (valid[cell] === 1) values.set(constant, cell * depth);
  }
}

function readValues(
  cursor: LercCursor,
  header: LercHeader,
  target: LercValues & { readonly highest: readonly number[] },
): void {
  const { type, depth, tolerance, version } = header;
  if (cursor.byte() !== 0) {
    for (let cell = 0; cell < target.valid.length; cell++) {
      if (target.valid[cell] === 0) continue;
      for (let d = 0; d < depth; d++) target.values[cell * depth + d] = cursor.number(type);
    }
    return;
  }
  const bytes = type === 'int8' || type === 'uint8';
  const coded =
    bytes && tolerance === 0.5 ? cursor.byte() : version >= 6 && !bytes && tolerance === 0 ? cursor.byte() : 0;
  if (coded === 0) {
    readLercTiles(cursor, header, target);
    return;
  }
  if (!bytes || (coded !== DIFFERENCES && coded !== PLAIN_CODES)) {
    failLerc(`values packed in form ${coded}`, 'squares, or codes of 8-bit numbers');
  }
  const values = new Int16Array(target.values.length);
  readLercHuffman(cursor, header, { differences: coded === DIFFERENCES, valid: target.valid, values });
  target.values.set(values);
}
