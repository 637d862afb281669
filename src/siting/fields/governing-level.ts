import type { Metres } from '../../units/quantity.ts';
import { LevelQueue } from './level-queue.ts';
import type { OpenGround } from './open-ground.ts';

/** Where a pass begins: a cell and the level there. */
export interface Seed {
  readonly cell: number;
  readonly level: Metres;
}

/** Stands for a cell that no way leads to. */
export const NO_WAY = Number.POSITIVE_INFINITY;

/**
 * The least that the highest ground on a way can be, from a cell to every other: g(c) = min over ways of max z.
 *
 * A flood from the seed: a cell below the water is reached at the water's level (plain queue), one above it at its own (heap).
 * Steps go to the four cells beside, so that the ground between two cells never lies above both. Infinite where no way leads.
 * Source: the minimax path; R. Barnes, C. Lehman, D. Mulla, Computers & Geosciences 62, 2014, for the two queues.
 */
export function governingLevel({ columns, rows, heights, open }: OpenGround, seed: Seed): Float32Array {
  const level = new Float32Array(columns * rows).fill(NO_WAY);
  const heap = new LevelQueue();
  const below = new Int32Array(columns * rows);
  let first = 0;
  let last = 0;
  let water = Math.fround(Math.max(seed.level, heights[seed.cell] as number));
  if (open[seed.cell] !== 1) return level;
  level[seed.cell] = water;
  below[last++] = seed.cell;
  const lastColumn = columns - 1;
  const lastCell = columns * (rows - 1);

  const reach = (next: number): void => {
    if (level[next] !== NO_WAY || open[next] !== 1) return;
    const ground = heights[next] as number;
    if (ground <= water) {
      level[next] = water;
      below[last++] = next;
    } else {
      level[next] = ground;
      heap.push(next, ground);
    }
  };

  for (;;) {
    let cell: number;
    if (first < last) cell = below[first++] as number;
    else {
      cell = heap.pop();
      if (cell < 0) return level;
      water = heap.level;
      first = 0;
      last = 0;
    }
    const column = cell % columns;
    if (column > 0) reach(cell - 1);
    if (column < lastColumn) reach(cell + 1);
    if (cell >= columns) reach(cell - columns);
    if (cell < lastCell) reach(cell + columns);
  }
}
