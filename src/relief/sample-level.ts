import type { CellsPerMetre } from './cells-per-metre.ts';
import { type GroundSamples, KNOWN, OUTSIDE, VOID } from './ground-samples.ts';
import type { Heights } from './heights.ts';
import { type Gradients, hornGradients } from './horn.ts';
import type { Lattice } from './warp-lattice.ts';

export interface LevelPart {
  readonly heights: Heights;
  readonly lattice: Lattice;
  readonly turn: CellsPerMetre;
  /** Columns and rows of the level, with the broken share of its last ones. */
  readonly size: { readonly columns: number; readonly rows: number };
}

/**
 * Fills the places that are not known yet from one level of one grid: heights and gradients bilinear between the middles
 * of cells, and those of the nearest cell beside a void.
 */
export function addSamples(samples: GroundSamples, part: LevelPart): void {
  const gradients = hornGradients(part.heights);
  const { lattice, heights, size } = part;
  const left = lattice.left - heights.column;
  const top = lattice.top - heights.row;
  for (let at = 0; at < samples.state.length; at += 1) {
    if (samples.state[at] === KNOWN) continue;
    const x = (lattice.columns[at] ?? 0) + left;
    const y = (lattice.rows[at] ?? 0) + top;
    const column = x + heights.column;
    const row = y + heights.row;
    if (column < 0 || row < 0 || column > size.columns || row > size.rows) continue;
    if (samples.state[at] === OUTSIDE) samples.state[at] = VOID;
    writeSample(samples, at, part, gradients, x, y);
  }
}

/** Writes a place at (x, y) of the block unless the cell it lies in is not known. */
function writeSample(
  samples: GroundSamples,
  at: number,
  { heights, turn }: LevelPart,
  gradients: Gradients,
  x: number,
  y: number,
): void {
  const { columns, rows, known } = heights;
  const nearest = Math.min(rows - 1, Math.floor(y)) * columns + Math.min(columns - 1, Math.floor(x));
  if (known[nearest] !== 1) return;
  const left = Math.floor(x - 0.5);
  const top = Math.floor(y - 0.5);
  const whole = allKnown(heights, left, top);
  // Beside a void the nearest cell stands for all four.
  const first = whole ? top * columns + left : nearest;
  const right = whole ? 1 : 0;
  const below = whole ? columns : 0;
  const s = x - 0.5 - left;
  const t = y - 0.5 - top;
  const across = mean(gradients.across, first, right, below, s, t);
  const down = mean(gradients.down, first, right, below, s, t);
  samples.heights[at] = mean(heights.heights, first, right, below, s, t);
  samples.east[at] = across * turn.columnEast + down * turn.rowEast;
  samples.north[at] = across * turn.columnNorth + down * turn.rowNorth;
  samples.state[at] = KNOWN;
  samples.missing -= 1;
}

/** Whether the four cells are there and known whose middles lie around a place. */
function allKnown({ known, columns, rows }: Heights, left: number, top: number): boolean {
  if (left < 0 || top < 0 || left + 1 >= columns || top + 1 >= rows) return false;
  const first = top * columns + left;
  return (
    (known[first] ?? 0) +
      (known[first + 1] ?? 0) +
      (known[first + columns] ?? 0) +
      (known[first + columns + 1] ?? 0) ===
    4
  );
}

function mean(values: Float32Array, first: number, right: number, below: number, s: number, t: number): number {
  const a = values[first] ?? 0;
  const b = values[first + right] ?? 0;
  const c = values[first + below] ?? 0;
  const d = values[first + below + right] ?? 0;
  const upper = a + (b - a) * s;
  return upper + (c + (d - c) * s - upper) * t;
}
