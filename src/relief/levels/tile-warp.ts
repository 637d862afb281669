import type { Position } from '../../geodesy/position.ts';
import type { CellPlace } from '../../terrain/grid/placed-grid.ts';
import { placeInTile } from './mercator.ts';
import type { TileAddress } from './tile-address.ts';

/** The largest distance between the warp and the exact projection, cells. */
export const WARP_ERROR = 0.1;
/** The mesh is refined until the error seen at the middles is this share of the promise; between them it is smaller. */
const SEEN_SHARE = 0.5;
const COARSEST_MESH = 4;
const FINEST_MESH = 128;
/** Control points reach a little beyond the tile, so that its margin needs no extrapolation. */
export const MARGIN = 1 / 16;

/** Where a tile lies in the cells of a grid: a mesh of exactly projected control points, bilinear between them. */
export interface TileWarp {
  /** Meshes a side. */
  readonly mesh: number;
  /** Columns and rows at the control points, (mesh + 1)² each, row by row from the north. */
  readonly columns: Float64Array;
  readonly rows: Float64Array;
}

/** From a place to the cells of a grid; whole numbers are corners of cells, null is outside the CRS. */
export type CellAt = (position: Position) => CellPlace | null;

/** Builds the warp of a tile, fine enough for `WARP_ERROR`; null where the projection is not defined on all of it. */
export function warpTile(tile: TileAddress, cellAt: CellAt): TileWarp | null {
  const exact: Exact = (u, v) => cellAt(placeInTile(tile, u, v)) ?? NOWHERE;
  for (let mesh = COARSEST_MESH; mesh <= FINEST_MESH; mesh *= 2) {
    const warp = controlPoints(mesh, exact);
    const error = middleError(warp, exact);
    if (!Number.isFinite(error)) return null;
    if (error <= WARP_ERROR * SEEN_SHARE) return warp;
  }
  return null;
}

/** Makes the error of a warp that leaves its CRS infinite. */
const NOWHERE: CellPlace = { column: Number.POSITIVE_INFINITY, row: Number.POSITIVE_INFINITY };

type Exact = (u: number, v: number) => CellPlace;

function tileShare(mesh: number, node: number): number {
  return -MARGIN + (node / mesh) * (1 + 2 * MARGIN);
}

function controlPoints(mesh: number, exact: Exact): TileWarp {
  const side = mesh + 1;
  const columns = new Float64Array(side * side);
  const rows = new Float64Array(side * side);
  for (let j = 0; j < side; j += 1) {
    for (let i = 0; i < side; i += 1) {
      const cell = exact(tileShare(mesh, i), tileShare(mesh, j));
      columns[j * side + i] = cell.column;
      rows[j * side + i] = cell.row;
    }
  }
  return { mesh, columns, rows };
}

/** Largest error at the middle of a mesh, where a bilinear surface strays furthest from a curved one. */
function middleError(warp: TileWarp, exact: Exact): number {
  let worst = 0;
  for (let j = 0; j < warp.mesh; j += 1) {
    for (let i = 0; i < warp.mesh; i += 1) {
      const u = tileShare(warp.mesh, i + 0.5);
      const v = tileShare(warp.mesh, j + 0.5);
      const is = warpedCell(warp, u, v);
      const should = exact(u, v);
      const error = Math.hypot(is.column - should.column, is.row - should.row);
      if (!(error <= worst)) worst = error;
    }
  }
  return worst;
}

/** Cell coordinates at the share (u, v) of the tile. */
export function warpedCell(warp: TileWarp, u: number, v: number): CellPlace {
  const i = meshIndex(warp.mesh, u);
  const j = meshIndex(warp.mesh, v);
  const s = meshPlace(warp.mesh, u) - i;
  const t = meshPlace(warp.mesh, v) - j;
  return {
    column: bilinearNode(warp.columns, warp.mesh, i, j, s, t),
    row: bilinearNode(warp.rows, warp.mesh, i, j, s, t),
  };
}

/** Where a share of the tile side lies among the meshes. */
export function meshPlace(mesh: number, share: number): number {
  return ((share + MARGIN) / (1 + 2 * MARGIN)) * mesh;
}

function meshIndex(mesh: number, share: number): number {
  return Math.min(mesh - 1, Math.max(0, Math.floor(meshPlace(mesh, share))));
}

function bilinearNode(values: Float64Array, mesh: number, i: number, j: number, s: number, t: number): number {
  const at = j * (mesh + 1) + i;
  const below = at + mesh + 1;
  const top = (values[at] ?? 0) * (1 - s) + (values[at + 1] ?? 0) * s;
  const bottom = (values[below] ?? 0) * (1 - s) + (values[below + 1] ?? 0) * s;
  return top * (1 - t) + bottom * t;
}
