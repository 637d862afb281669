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
  const places = samples.side * samples.side;
  for (let at = 0; at < places; at += 1) {
    if (samples.state[at] === KNOWN) continue;
    const column = (lattice.columns[at] ?? 0) + lattice.left;
    const row = (lattice.rows[at] ?? 0) + lattice.top;
    if (column < 0 || row < 0 || column > size.columns || row > size.rows) continue;
    if (samples.state[at] === OUTSIDE) samples.state[at] = VOID;
    const x = (lattice.columns[at] ?? 0) + lattice.left - heights.column;
    const y = (lattice.rows[at] ?? 0) + lattice.top - heights.row;
    writeSample(samples, at, x, y, part, gradients);
  }
}

function writeSample(
  samples: GroundSamples,
  at: number,
  x: number,
  y: number,
  part: LevelPart,
  gradients: Gradients,
): void {
  const { heights, known, columns, rows } = part.heights;
  const nearest = Math.min(rows - 1, Math.floor(y)) * columns + Math.min(columns - 1, Math.floor(x));
  if (known[nearest] !== 1) return;
  const left = Math.floor(x - 0.5);
  const top = Math.floor(y - 0.5);
  const first = top * columns + left;
  const below = first + columns;
  const inside = left >= 0 && top >= 0 && left + 1 < columns && top + 1 < rows;
  const whole = inside && known[first] && known[first + 1] && known[below] && known[below + 1];
  const s = x - 0.5 - left;
  const t = y - 0.5 - top;
  const mix = (values: Float32Array): number => {
    if (!whole) return values[nearest] ?? 0;
    const upper = (values[first] ?? 0) * (1 - s) + (values[first + 1] ?? 0) * s;
    const lower = (values[below] ?? 0) * (1 - s) + (values[below + 1] ?? 0) * s;
    return upper * (1 - t) + lower * t;
  };
  const across = mix(gradients.across);
  const down = mix(gradients.down);
  samples.heights[at] = mix(heights);
  samples.east[at] = across * part.turn.columnEast + down * part.turn.rowEast;
  samples.north[at] = across * part.turn.columnNorth + down * part.turn.rowNorth;
  samples.state[at] = KNOWN;
  samples.missing -= 1;
}
