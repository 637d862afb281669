import type { Metres, Ratio } from '../../units/quantity.ts';
import { BucketQueue } from './bucket-queue.ts';
import { NO_WAY, type Seed } from './governing-level.ts';
import type { OpenGround } from './open-ground.ts';
import { BESIDE_STEPS, shortestStep, stepsOn } from './steps.ts';

/** What a way is chosen by. */
export type WayAim =
  /** The shortest along the ground. */
  | { readonly kind: 'shortest' }
  /** The least head: the highest ground on the way and what friction takes on its length, head per metre. */
  | { readonly kind: 'least-head'; readonly friction: Ratio };

/** One way to every cell, with what a delivery line needs to know of it. */
export interface Ways {
  /** Length along the ground, m; infinite where no way leads. */
  readonly length: Float32Array;
  /** Highest ground on the way, both ends among it, m. */
  readonly level: Float32Array;
  /** Length of the way at its highest ground, m. */
  readonly summitAt: Float32Array;
  /** 1 where the way goes down again somewhere by more than the trench takes up. */
  readonly sags: Uint8Array;
  /** Index of the step that came here; `NO_STEP` at the seed and where no way leads. */
  readonly step: Uint8Array;
}

export const NO_STEP = 255;

/** Both aims keep the head per metre above nought, so that every step has a cost. */
const LEAST_FRICTION: Ratio = 1e-4;

/**
 * A way to every cell over steps to 16 neighbours.
 *
 * Shortest: exact on the steps; L ← L + √(r² + Δz²). Least head: of the ways to a cell the one with the least g + i L is kept,
 * g the highest ground on it: a lower, longer way may so hide a higher, shorter one, which the pass for the shortest finds. At
 * most 2.75 % longer than a straight line on level ground (closed form). Ground beside a step counts as bilinear heights have it.
 * Sources: E. W. Dijkstra, Numerische Mathematik 1, 1959; buckets as in `BucketQueue`; the aim of least head is derived.
 */
export function waysFrom(
  ground: OpenGround,
  seed: Seed,
  aim: WayAim,
  sagDepth: Metres,
  /** Told of every cell once its way is final, the nearest first; true ends the pass, and what is farther may have no way. */
  until: (cell: number) => boolean = NEVER,
): Ways {
  const { columns, rows, heights, open } = ground;
  const n = columns * rows;
  const steps = stepsOn(ground, 16);
  const { columns: dc, rows: dr, offset, run, one, other } = steps;
  const length = new Float32Array(n).fill(NO_WAY);
  const level = new Float32Array(n).fill(NO_WAY);
  const summitAt = new Float32Array(n);
  const sags = new Uint8Array(n);
  const step = new Uint8Array(n).fill(NO_STEP);
  const ways: Ways = { length, level, summitAt, sags, step };
  if (open[seed.cell] !== 1) return ways;
  const byHead = aim.kind === 'least-head';
  const friction = byHead ? Math.max(LEAST_FRICTION, aim.friction) : 1;
  // By length the cost is the length itself: one array serves both.
  const cost = byHead ? new Float32Array(n).fill(NO_WAY) : length;
  const done = new Uint8Array(n);
  const base = Math.fround(Math.max(seed.level, heights[seed.cell] as number));
  const queue = new BucketQueue(friction * shortestStep(steps));
  length[seed.cell] = 0;
  level[seed.cell] = base;
  cost[seed.cell] = 0;
  queue.push(seed.cell, 0);
  for (;;) {
    const cell = queue.pop();
    if (cell < 0) return ways;
    if (done[cell] === 1) continue;
    done[cell] = 1;
    if (until(cell)) return onlyFinal(ways, done);
    const row = (cell / columns) | 0;
    const column = cell - row * columns;
    const inside = column > 1 && row > 1 && column < columns - 2 && row < rows - 2;
    const z = heights[cell] as number;
    const from = length[cell] as number;
    const top = level[cell] as number;
    const spent = cost[cell] as number;
    for (let k = 0; k < 16; k++) {
      if (!inside) {
        const c = column + (dc[k] as number);
        const r = row + (dr[k] as number);
        if (c < 0 || r < 0 || c >= columns || r >= rows) continue;
      }
      const next = cell + (offset[k] as number);
      const r = run[k] as number;
      if (done[next] === 1 || open[next] !== 1) continue;
      const there = heights[next] as number;
      let high = Math.max(there, top);
      const best = cost[next] as number;
      // What the step costs at least: most steps lead to cells that are reached as well already.
      if (spent + friction * r + (byHead ? high - top : 0) >= best) continue;
      if (k >= BESIDE_STEPS) {
        const a = cell + (one[k] as number);
        const b = cell + (other[k] as number);
        if (open[a] !== 1 || open[b] !== 1) continue;
        const beside = ((heights[a] as number) + (heights[b] as number)) / 2;
        const passed = k < 8 ? (beside + (z + there) / 2) / 2 : beside;
        if (passed > high) high = passed;
      }
      const rise = there - z;
      const reached = Math.fround(from + Math.sqrt(r * r + rise * rise));
      const paid = byHead ? Math.fround(high - base + friction * reached) : reached;
      if (paid >= best) continue;
      cost[next] = paid;
      length[next] = reached;
      level[next] = high;
      summitAt[next] = high > top ? reached : (summitAt[cell] as number);
      sags[next] = sags[cell] === 1 || there < high - sagDepth ? 1 : 0;
      step[next] = k;
      queue.push(next, paid);
    }
  }
}

const NEVER = (): boolean => false;

/** The ways of a pass that was ended: those that were not final are none. */
function onlyFinal(ways: Ways, done: Uint8Array): Ways {
  for (let cell = 0; cell < done.length; cell++) if (done[cell] !== 1) ways.length[cell] = NO_WAY;
  return ways;
}

/** Cells of the way from the seed to a cell, both among them; empty where none leads. */
export function wayTo({ step, length }: Ways, ground: OpenGround, cell: number): number[] {
  if (length[cell] === NO_WAY) return [];
  const { offset } = stepsOn(ground, 16);
  const way = [cell];
  for (let at = cell; step[at] !== NO_STEP; ) {
    at -= offset[step[at] as number] as number;
    way.push(at);
  }
  return way.reverse();
}
