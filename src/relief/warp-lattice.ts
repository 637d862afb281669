import { type TileWarp, warpedCell } from './tile-warp.ts';

/** Evenly spaced places in a tile: the share of the first one, the step, and how many a side. */
export interface LatticeSpec {
  readonly first: number;
  readonly step: number;
  readonly side: number;
}

/** Cell coordinates of a lattice of places, row by row from the north. */
export interface Lattice {
  readonly side: number;
  readonly columns: Float32Array;
  readonly rows: Float32Array;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * The warp at every place of a lattice, `scale` cells of the grid to one unit, measured from the lattice's own first
 * cell (`left`, `top`) so that single precision suffices.
 */
export function warpLattice(warp: TileWarp, spec: LatticeSpec, scale: number): Lattice {
  const bounds = cellBounds(warp, scale);
  const { side } = spec;
  const columns = new Float32Array(side * side);
  const rows = new Float32Array(side * side);
  for (let j = 0; j < side; j += 1) {
    for (let i = 0; i < side; i += 1) {
      const cell = warpedCell(warp, spec.first + i * spec.step, spec.first + j * spec.step);
      columns[j * side + i] = cell.column / scale - bounds.left;
      rows[j * side + i] = cell.row / scale - bounds.top;
    }
  }
  return { side, columns, rows, ...bounds };
}

function cellBounds(warp: TileWarp, scale: number): { left: number; right: number; top: number; bottom: number } {
  return {
    left: Math.floor(least(warp.columns) / scale),
    right: Math.ceil(most(warp.columns) / scale),
    top: Math.floor(least(warp.rows) / scale),
    bottom: Math.ceil(most(warp.rows) / scale),
  };
}

function least(values: Float64Array): number {
  return values.reduce((low, value) => Math.min(low, value), Number.POSITIVE_INFINITY);
}

function most(values: Float64Array): number {
  return values.reduce((high, value) => Math.max(high, value), Number.NEGATIVE_INFINITY);
}
