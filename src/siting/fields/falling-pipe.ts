import type { Metres, Ratio } from '../../units/quantity.ts';
import { BucketQueue } from './bucket-queue.ts';
import type { Seed } from './governing-level.ts';
import type { OpenGround } from './open-ground.ts';
import { BESIDE_STEPS, shortestStep, stepsOn } from './steps.ts';
import { NO_STEP } from './ways-from.ts';

/** How a line that falls all the way may lie. */
export interface FallingLay {
  /** Least fall per metre of level run. */
  readonly leastFall: Ratio;
  /** How far below and above the ground it may lie, m. */
  readonly deepest: Metres;
  readonly highest: Metres;
}

/** The highest that a pipe can lie at every cell when it falls all the way there. */
export interface FallingPipe {
  /** Level of the pipe, m; −∞ where none can be laid. */
  readonly level: Float32Array;
  /** Level length of its way, m. */
  readonly length: Float32Array;
  readonly step: Uint8Array;
}

/** Stands for a cell that no falling pipe reaches. */
export const NO_PIPE = Number.NEGATIVE_INFINITY;

/**
 * The highest falling pipe from a cell to every other, as far as one can be laid.
 *
 * p′ = min(p − s r, z + c), to be laid where p′ ≥ z − d; the widest path on p. A higher pipe can go on wherever a lower one can,
 * so the highest at each cell is all that matters. At a step's end and beside it the ground must allow it. Source: derived.
 */
export function fallingPipe(ground: OpenGround, seed: Seed, { leastFall, deepest, highest }: FallingLay): FallingPipe {
  const { columns, rows, heights, open } = ground;
  const n = columns * rows;
  const steps = stepsOn(ground, 16);
  const { columns: dc, rows: dr, offset, run, one, other } = steps;
  const level = new Float32Array(n).fill(NO_PIPE);
  const length = new Float32Array(n);
  const step = new Uint8Array(n).fill(NO_STEP);
  const done = new Uint8Array(n);
  const pipe: FallingPipe = { level, length, step };
  if (open[seed.cell] !== 1) return pipe;
  const top = Math.fround(seed.level);
  const queue = new BucketQueue(leastFall * shortestStep(steps));
  level[seed.cell] = top;
  queue.push(seed.cell, 0);
  for (;;) {
    const cell = queue.pop();
    if (cell < 0) return pipe;
    if (done[cell] === 1) continue;
    done[cell] = 1;
    const row = (cell / columns) | 0;
    const column = cell - row * columns;
    const z = heights[cell] as number;
    const p = level[cell] as number;
    const inside = column > 1 && row > 1 && column < columns - 2 && row < rows - 2;
    for (let k = 0; k < 16; k++) {
      if (!inside) {
        const c = column + (dc[k] as number);
        const r = row + (dr[k] as number);
        if (c < 0 || r < 0 || c >= columns || r >= rows) continue;
      }
      const next = cell + (offset[k] as number);
      if (done[next] === 1 || open[next] !== 1) continue;
      const fallen = p - leastFall * (run[k] as number);
      const there = heights[next] as number;
      const bound = Math.min(there + highest, fallen);
      if (bound <= (level[next] as number) || bound < there - deepest) continue;
      let laid = bound;
      if (k >= BESIDE_STEPS) {
        const a = cell + (one[k] as number);
        const b = cell + (other[k] as number);
        if (open[a] !== 1 || open[b] !== 1) continue;
        const beside = ((heights[a] as number) + (heights[b] as number)) / 2;
        const passed = k < 8 ? (beside + (z + there) / 2) / 2 : beside;
        laid = Math.min(laid, passed + highest - (leastFall * (run[k] as number)) / 2);
        if (laid < passed - deepest) continue;
      }
      laid = Math.fround(laid);
      if (laid < there - deepest || laid <= (level[next] as number)) continue;
      level[next] = laid;
      length[next] = (length[cell] as number) + (run[k] as number);
      step[next] = k;
      queue.push(next, top - laid);
    }
  }
}
