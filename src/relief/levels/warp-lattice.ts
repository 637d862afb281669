import { meshPlace, type TileWarp } from './tile-warp.ts';

/** Evenly spaced places in a tile: the share of the first one, the step, and how many a side. */
export interface LatticeSpec {
  readonly first: number;
  readonly step: number;
  readonly side: number;
  /** Share of the tile side that a cell of the ground may cover; the step itself where nothing is said. */
  readonly coarse?: number;
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
  const along = Float64Array.from({ length: side }, (_, i) => meshPlace(warp.mesh, spec.first + i * spec.step));
  for (let j = 0; j < side; j += 1) {
    const across = meshRow(warp, spec.first + j * spec.step);
    for (let i = 0; i < side; i += 1) {
      const place = along[i] ?? 0;
      const node = Math.min(warp.mesh - 1, Math.max(0, Math.floor(place)));
      columns[j * side + i] = between(across.columns, node, place - node) / scale - bounds.left;
      rows[j * side + i] = between(across.rows, node, place - node) / scale - bounds.top;
    }
  }
  return { side, columns, rows, ...bounds };
}

/** Control points along a row of the tile, interpolated between the rows of the mesh. */
function meshRow(warp: TileWarp, v: number): { readonly columns: Float64Array; readonly rows: Float64Array } {
  const place = meshPlace(warp.mesh, v);
  const upper = Math.min(warp.mesh - 1, Math.max(0, Math.floor(place)));
  const side = warp.mesh + 1;
  const blend = (values: Float64Array) =>
    Float64Array.from({ length: side }, (_, i) => {
      const above = values[upper * side + i] ?? 0;
      return above + ((values[(upper + 1) * side + i] ?? 0) - above) * (place - upper);
    });
  return { columns: blend(warp.columns), rows: blend(warp.rows) };
}

function between(values: Float64Array, node: number, share: number): number {
  const from = values[node] ?? 0;
  return from + ((values[node + 1] ?? 0) - from) * share;
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
