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
  const cells = new Int32Array(square * square);
  for (let top = 0; top < rows; top += square) {
    for (let left = 0; left < columns; left += square) {
      const count = findCells(header, target.valid, { top, left }, cells);
      for (let d = 0; d < depth; d++) {
        readSquare(cursor, header, { cells: cells.subarray(0, count), d, left }, target);
      }
    }
  }
}

/** Fills `cells` with the places of a square's cells that have values; answers how many. */
function findCells(
  { rows, columns, square }: LercHeader,
  valid: Uint8Array,
  { top, left }: { top: number; left: number },
  cells: Int32Array,
): number {
  let count = 0;
  const right = Math.min(columns, left + square);
  for (let row = top; row < Math.min(rows, top + square); row++) {
    for (let cell = row * columns + left; cell < row * columns + right; cell++) {
      if (valid[cell] === 1) cells[count++] = cell;
    }
  }
  return count;
}

/** The cells of a square, which of their values is read, and where the square begins. */
interface Square {
  readonly cells: Int32Array;
  readonly d: number;
  readonly left: number;
}

function readSquare(cursor: LercCursor, header: LercHeader, square: Square, target: LercTarget): void {
  const { version, type } = header;
  const flag = cursor.byte();
  // Some bits repeat where the square lies; from version 5 on one of them says that values build on the ones before.
  const onPrevious = version >= 5 && (flag & 4) !== 0;
  const mask = version >= 5 ? 14 : 15;
  if (((flag >> 2) & mask) !== ((square.left >> 3) & mask)) failLerc('a square out of place', 'squares in their order');
  if (onPrevious && square.d === 0) failLerc('a first value that builds on another', 'a value of its own');
  const kind = flag & 3;
  if (kind === AS_THEY_ARE) {
    if (onPrevious) failLerc('plain values that build on others', 'values of their own');
    readPlain(cursor, header, square, target.values);
    return;
  }
  const whole = type !== 'float32' && type !== 'float64';
  const offset = kind === ZEROS ? 0 : cursor.number(smallerType(onPrevious && whole ? 'int32' : type, flag >> 6));
  const steps = kind === QUANTISED ? readPackedNumbers(cursor, square.cells.length) : null;
  if (steps !== null && steps.length !== square.cells.length) {
    failLerc(`${steps.length} values in a square`, `${square.cells.length}`);
  }
  putSteps({ offset, steps, onPrevious }, header, square, target);
}

function readPlain(cursor: LercCursor, { type, depth }: LercHeader, { cells, d }: Square, values: Float64Array): void {
  for (let i = 0; i < cells.length; i++) values[(cells[i] as number) * depth + d] = cursor.number(type);
}

/** value = offset + step · 2 · tolerance, on top of the cell's previous value if so stated, but never above the highest. */
function putSteps(
  form: { offset: number; steps: Uint32Array | null; onPrevious: boolean },
  { depth, tolerance }: LercHeader,
  { cells, d }: Square,
  { values, highest }: LercTarget,
): void {
  const { offset, steps, onPrevious } = form;
  const scale = 2 * tolerance;
  const most = steps === null ? Number.POSITIVE_INFINITY : (highest[d] as number);
  for (let i = 0; i < cells.length; i++) {
    const at = (cells[i] as number) * depth + d;
    const own = steps === null ? offset : offset + (steps[i] as number) * scale;
    values[at] = Math.min(onPrevious ? own + (values[at - 1] as number) : own, most);
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
