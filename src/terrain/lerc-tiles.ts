import { readPackedNumbers } from './lerc-bits.ts';
import { failLerc, LERC_TYPES, type LercCursor, type LercType } from './lerc-cursor.ts';
import type { LercHeader } from './lerc-header.ts';

/** What the squares are read into. */
export interface LercTarget {
  readonly valid: Uint8Array;
  readonly values: Float64Array;
  /** Highest value of each of a cell's values: a quantised value never goes beyond it. */
  readonly highest: readonly number[];
}

/** How a square is packed, in the low two bits of its first byte. */
const AS_THEY_ARE = 0;
const QUANTISED = 1;
const ZEROS = 2;

/** Reads the values square by square. Source: Esri, LERC specification (github.com/Esri/lerc), Lerc2 tiling. */
export function readLercTiles(cursor: LercCursor, header: LercHeader, target: LercTarget): void {
  const { rows, columns, square, depth } = header;
  for (let top = 0; top < rows; top += square) {
    for (let left = 0; left < columns; left += square) {
      const cells = validCells(header, target.valid, top, left);
      for (let d = 0; d < depth; d++) readSquare(cursor, header, { cells, d, left }, target);
    }
  }
}

function validCells({ rows, columns, square }: LercHeader, valid: Uint8Array, top: number, left: number): number[] {
  const cells: number[] = [];
  for (let row = top; row < Math.min(rows, top + square); row++) {
    for (let column = left; column < Math.min(columns, left + square); column++) {
      const cell = row * columns + column;
      if (valid[cell] === 1) cells.push(cell);
    }
  }
  return cells;
}

function readSquare(
  cursor: LercCursor,
  header: LercHeader,
  { cells, d, left }: { cells: readonly number[]; d: number; left: number },
  { values, highest }: LercTarget,
): void {
  const { version, depth, tolerance, type } = header;
  const flag = cursor.byte();
  // Some bits repeat where the square lies; from version 5 on one of them says that values build on the ones before.
  const onPrevious = version >= 5 && (flag & 4) !== 0;
  const mask = version >= 5 ? 14 : 15;
  if (((flag >> 2) & mask) !== ((left >> 3) & mask)) failLerc('a square out of place', 'squares in their order');
  if (onPrevious && d === 0) failLerc('a first value that builds on another', 'a value of its own');
  const put = (i: number, value: number) => {
    const at = (cells[i] as number) * depth + d;
    values[at] = onPrevious ? value + (values[at - 1] as number) : value;
  };
  const kind = flag & 3;
  if (kind === ZEROS) {
    for (let i = 0; i < cells.length; i++) put(i, 0);
    return;
  }
  if (kind === AS_THEY_ARE) {
    if (onPrevious) failLerc('plain values that build on others', 'values of their own');
    for (let i = 0; i < cells.length; i++) put(i, cursor.number(type));
    return;
  }
  const whole = type !== 'float32' && type !== 'float64';
  const offset = cursor.number(smallerType(onPrevious && whole ? 'int32' : type, flag >> 6));
  if (kind !== QUANTISED) {
    for (let i = 0; i < cells.length; i++) put(i, offset);
    return;
  }
  const steps = readPackedNumbers(cursor, cells.length);
  if (steps.length !== cells.length) failLerc(`${steps.length} values in a square`, `${cells.length}`);
  const most = highest[d] as number;
  for (let i = 0; i < cells.length; i++) {
    put(i, offset + (steps[i] as number) * 2 * tolerance);
    const at = (cells[i] as number) * depth + d;
    values[at] = Math.min(values[at] as number, most);
  }
}

/** The kind of number in which a square's offset is stored: the smaller the code, the shorter. */
function smallerType(type: LercType, code: number): LercType {
  const index = LERC_TYPES.indexOf(type);
  const smaller: Readonly<Record<LercType, number>> = {
    int8: index,
    uint8: index,
    int16: index - code,
    int32: index - code,
    uint16: index - 2 * code,
    uint32: index - 2 * code,
    float32: code === 0 ? index : code === 1 ? 2 : 1,
    float64: code === 0 ? index : index - 2 * code + 1,
  };
  return LERC_TYPES[smaller[type]] ?? failLerc(`offset form ${code}`, 'a form of LERC 2');
}
