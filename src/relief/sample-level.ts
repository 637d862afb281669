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
  const corners = new Corners(heights);
  for (let at = 0; at < samples.state.length; at += 1) {
    if (samples.state[at] === KNOWN) continue;
    const column = (lattice.columns[at] ?? 0) + lattice.left;
    const row = (lattice.rows[at] ?? 0) + lattice.top;
    if (column < 0 || row < 0 || column > size.columns || row > size.rows) continue;
    if (samples.state[at] === OUTSIDE) samples.state[at] = VOID;
    if (corners.moveTo(column - heights.column, row - heights.row)) writeSample(samples, at, part, gradients, corners);
  }
}

function writeSample(
  samples: GroundSamples,
  at: number,
  { heights, turn }: LevelPart,
  gradients: Gradients,
  corners: Corners,
): void {
  const across = corners.mean(gradients.across);
  const down = corners.mean(gradients.down);
  samples.heights[at] = corners.mean(heights.heights);
  samples.east[at] = across * turn.columnEast + down * turn.rowEast;
  samples.north[at] = across * turn.columnNorth + down * turn.rowNorth;
  samples.state[at] = KNOWN;
  samples.missing -= 1;
}

/** The four cells whose middles lie around a place, with their bilinear shares. */
class Corners {
  readonly #block: Heights;
  #first = 0;
  #right = 0;
  #down = 0;
  #s = 0;
  #t = 0;

  constructor(block: Heights) {
    this.#block = block;
  }

  /** False where the nearest cell is not known. */
  moveTo(x: number, y: number): boolean {
    const { known, columns, rows } = this.#block;
    const nearest = Math.min(rows - 1, Math.floor(y)) * columns + Math.min(columns - 1, Math.floor(x));
    if (known[nearest] !== 1) return false;
    const left = Math.floor(x - 0.5);
    const top = Math.floor(y - 0.5);
    const first = top * columns + left;
    const inside = left >= 0 && top >= 0 && left + 1 < columns && top + 1 < rows;
    const whole = inside && known[first] && known[first + 1] && known[first + columns] && known[first + columns + 1];
    this.#first = whole ? first : nearest;
    this.#right = whole ? 1 : 0;
    this.#down = whole ? columns : 0;
    this.#s = x - 0.5 - left;
    this.#t = y - 0.5 - top;
    return true;
  }

  mean(values: Float32Array): number {
    const a = values[this.#first] ?? 0;
    const b = values[this.#first + this.#right] ?? 0;
    const c = values[this.#first + this.#down] ?? 0;
    const d = values[this.#first + this.#down + this.#right] ?? 0;
    const upper = a + (b - a) * this.#s;
    return upper + (c + (d - c) * this.#s - upper) * this.#t;
  }
}
