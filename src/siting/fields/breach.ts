import type { Metres } from '../../units/quantity.ts';
import { LevelQueue } from './level-queue.ts';
import type { OpenGround } from './open-ground.ts';
import { stepsOn } from './steps.ts';

/** How far a dam in the heights may be cut: a culvert's length and depth. */
export interface BreachBounds {
  /** Cells of a cut between the pit and lower ground. */
  readonly cells: number;
  readonly depth: Metres;
}

/** Road dams over culverts and noise of lidar: six cells and two metres. Common practice, no source. */
export const USUAL_BREACH: BreachBounds = { cells: 6, depth: 2 };

/**
 * Ground with short, shallow dams cut through, so that water passes where a culvert lets it; deeper or longer ones stay.
 *
 * For each pit the way with the least digging to lower ground within reach, cut falling straight from the pit to there. What
 * stays a pit is for the flood. Source: breaching before filling, J. B. Lindsay, 2016 (from memory).
 */
export function breached(ground: OpenGround, { cells, depth }: BreachBounds): OpenGround {
  const cut: OpenGround = { ...ground, heights: ground.heights.slice() };
  const { columns, rows, heights, open } = cut;
  const steps = stepsOn(cut, 8);
  const side = 2 * cells + 3;
  const dug = new Float32Array(side * side);
  const from = new Int32Array(side * side);
  const queue = new LevelQueue();
  for (let row = 1; row < rows - 1; row++) {
    for (let column = 1; column < columns - 1; column++) {
      const cell = row * columns + column;
      if (open[cell] === 1 && isPit(cell)) breachFrom(cell, column, row);
    }
  }
  return cut;

  function isPit(cell: number): boolean {
    const z = heights[cell] as number;
    for (let k = 0; k < 8; k++) {
      const next = cell + (steps.offset[k] as number);
      if (open[next] !== 1 || (heights[next] as number) < z) return false;
    }
    return true;
  }

  function breachFrom(pit: number, column: number, row: number): void {
    const z = heights[pit] as number;
    const half = cells + 1;
    const place = (c: number, r: number): number => (r - row + half) * side + (c - column + half);
    dug.fill(Number.POSITIVE_INFINITY);
    queue.clear();
    dug[place(column, row)] = 0;
    from[place(column, row)] = -1;
    queue.push(pit, 0);
    for (let cell = queue.pop(); cell >= 0; cell = queue.pop()) {
      const r0 = (cell / columns) | 0;
      const c0 = cell - r0 * columns;
      const here = place(c0, r0);
      if (queue.level > (dug[here] as number)) continue;
      if (cell !== pit && ((heights[cell] as number) < z || isAtEdge(c0, r0))) {
        cutBack(pit, cell, place);
        return;
      }
      for (let k = 0; k < 8; k++) {
        const c = c0 + (steps.columns[k] as number);
        const r = r0 + (steps.rows[k] as number);
        if (c < 0 || r < 0 || c >= columns || r >= rows || Math.max(Math.abs(c - column), Math.abs(r - row)) > half)
          continue;
        const next = cell + (steps.offset[k] as number);
        const above = (heights[next] as number) - z;
        if (open[next] !== 1 || above > depth) continue;
        const sum = Math.fround((dug[here] as number) + Math.max(0, above) + TIE * (steps.run[k] as number));
        const there = place(c, r);
        if (sum >= (dug[there] as number)) continue;
        dug[there] = sum;
        from[there] = cell;
        queue.push(next, sum);
      }
    }
  }

  function isAtEdge(c: number, r: number): boolean {
    return c === 0 || r === 0 || c === columns - 1 || r === rows - 1;
  }

  /** Lowers the cells between, falling evenly. */
  function cutBack(pit: number, end: number, place: (c: number, r: number) => number): void {
    const way = [end];
    for (let cell = end; cell !== pit; ) {
      const r = (cell / columns) | 0;
      cell = from[place(cell - r * columns, r)] as number;
      way.push(cell);
    }
    if (way.length - 2 > cells) return;
    const low = heights[end] as number;
    const high = heights[pit] as number;
    for (let i = 1; i < way.length - 1; i++) {
      const even = low + ((high - low) * i) / (way.length - 1);
      const cell = way[i] as number;
      if ((heights[cell] as number) > even) heights[cell] = even;
    }
  }
}

/** Of ways with the same digging the shorter is cut, m of digging per metre. */
const TIE = 1e-3;
