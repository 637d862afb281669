import type { Metres } from '../../units/quantity.ts';
import { LevelQueue } from './level-queue.ts';
import type { OpenGround } from './open-ground.ts';
import { stepsOn } from './steps.ts';

/** Water on every cell when it stands as high as it must to run off, and the way it runs. */
export interface Flood {
  /** Level of the water or the ground, m. */
  readonly level: Float32Array;
  /** Index of the step to the cell downstream, among eight; `RUNS_OFF` at the edge and beside a void. */
  readonly downstream: Uint8Array;
  /** Cells in the order in which they were reached: none before the one it drains to. */
  readonly order: Int32Array;
}

export const RUNS_OFF = 254;
const NOT_YET = 255;

/**
 * Priority flood from the edge, with directions: a cell that is wetted by its neighbour drains to it, a cell with lower ground
 * beside it down the steepest of its eight neighbours.
 *
 * Sources: R. Barnes, C. Lehman, D. Mulla, Priority-flood, Computers & Geosciences 62, 2014, 117–127; steepest of eight:
 * J. F. O'Callaghan, D. M. Mark, 1984 (from memory).
 */
export function flood(ground: OpenGround, open: Uint8Array = ground.open): Flood {
  const { columns, rows, heights } = ground;
  const n = columns * rows;
  const steps = stepsOn(ground, 8);
  const level = Float32Array.from(heights);
  const downstream = new Uint8Array(n).fill(NOT_YET);
  const order = new Int32Array(n);
  const heap = new LevelQueue();
  const below = new Int32Array(n);
  for (let cell = 0; cell < n; cell++) {
    if (open[cell] !== 1 || !onEdge(cell)) continue;
    downstream[cell] = RUNS_OFF;
    heap.push(cell, heights[cell] as number);
  }
  let count = 0;
  let first = 0;
  let last = 0;
  for (;;) {
    let cell: number;
    if (first < last) cell = below[first++] as number;
    else {
      cell = heap.pop();
      first = 0;
      last = 0;
      if (cell < 0) return { level, downstream: steepest(), order: order.subarray(0, count) };
    }
    order[count++] = cell;
    const water = level[cell] as number;
    const row = (cell / columns) | 0;
    const column = cell - row * columns;
    for (let k = 0; k < 8; k++) {
      const c = column + (steps.columns[k] as number);
      const r = row + (steps.rows[k] as number);
      if (c < 0 || r < 0 || c >= columns || r >= rows) continue;
      const next = cell + (steps.offset[k] as number);
      if (downstream[next] !== NOT_YET || open[next] !== 1) continue;
      downstream[next] = back(k);
      if ((heights[next] as number) <= water) {
        level[next] = water;
        below[last++] = next;
      } else heap.push(next, heights[next] as number);
    }
  }

  function onEdge(cell: number): boolean {
    const row = (cell / columns) | 0;
    const column = cell - row * columns;
    if (column === 0 || row === 0 || column === columns - 1 || row === rows - 1) return true;
    for (let k = 0; k < 8; k++) if (open[cell + (steps.offset[k] as number)] !== 1) return true;
    return false;
  }

  /** Down the steepest neighbour where there is lower water; where it stands level the way it was wetted. */
  function steepest(): Uint8Array {
    for (let at = 0; at < count; at++) {
      const cell = order[at] as number;
      if (downstream[cell] === RUNS_OFF) continue;
      const row = (cell / columns) | 0;
      const column = cell - row * columns;
      const water = level[cell] as number;
      let most = 0;
      for (let k = 0; k < 8; k++) {
        const c = column + (steps.columns[k] as number);
        const r = row + (steps.rows[k] as number);
        if (c < 0 || r < 0 || c >= columns || r >= rows) continue;
        const next = cell + (steps.offset[k] as number);
        if (open[next] !== 1) continue;
        const slope = (water - (level[next] as number)) / (steps.run[k] as number);
        if (slope > most) {
          most = slope;
          downstream[cell] = k;
        }
      }
    }
    return downstream;
  }
}

/** The step that leads back: steps beside and across are each other's opposites two apart. */
const back = (k: number): number => (k < 4 ? (k + 2) % 4 : 4 + ((k - 4 + 2) % 4));

/** How many cells drain through each, itself among them. */
export function accumulation(ground: OpenGround, { downstream, order }: Flood): Int32Array {
  const { offset } = stepsOn(ground, 8);
  const cells = new Int32Array(ground.columns * ground.rows);
  for (let at = order.length - 1; at >= 0; at--) {
    const cell = order[at] as number;
    cells[cell] = (cells[cell] as number) + 1;
    const k = downstream[cell] as number;
    if (k === RUNS_OFF) continue;
    const next = cell + (offset[k] as number);
    cells[next] = (cells[next] as number) + (cells[cell] as number);
  }
  return cells;
}

/** Cells that water passes from a cell on, itself among them, until it leaves the ground or has gone far enough. */
export function wayOfWater(
  ground: OpenGround,
  { downstream }: Flood,
  start: number,
  most: Metres = Number.POSITIVE_INFINITY,
): number[] {
  const { offset, run } = stepsOn(ground, 8);
  const way = [start];
  let length = 0;
  for (let cell = start; ; ) {
    const k = downstream[cell] as number;
    if (k >= RUNS_OFF) return way;
    length += run[k] as number;
    if (length > most) return way;
    cell += offset[k] as number;
    way.push(cell);
  }
}
