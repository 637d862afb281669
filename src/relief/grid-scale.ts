import type { Position } from '../geodesy/position.ts';
import { DEGREE } from '../geodesy/wgs84.ts';
import type { ElevationGrid } from '../terrain/grid.ts';
import type { Metres } from '../units/quantity.ts';
import { placeInTile, tileGround } from './mercator.ts';
import type { PlaneProjection } from './plane-projection.ts';
import { cellOfPlane } from './tile-warp.ts';

/** How large the cells of a grid are, near its middle. */
export interface GridScale {
  readonly middle: Position;
  /** Side of a square as large as a cell on the ground, m. */
  readonly cell: Metres;
  /** Cells along the whole width of the Web Mercator world at the latitude of the middle. */
  readonly cellsPerTurn: number;
}

/** A step small enough to be straight and large enough for double precision, as a share of the world's width. */
const STEP = 1e-6;
const WORLD = { z: 0, x: 0, y: 0 };

export function gridScale(grid: ElevationGrid, projection: PlaneProjection): GridScale {
  const { a, b, c, d, e, f } = grid.affine;
  const column = grid.columns / 2;
  const row = grid.rows / 2;
  const middle = projection.toPosition({ x: a * column + b * row + c, y: d * column + e * row + f });
  const toCell = cellOfPlane(grid.affine);
  const at = (u: number, v: number) => {
    const plane = projection.toPlane(placeInTile(WORLD, u, v));
    return toCell(plane.x, plane.y);
  };
  const u = middle.lon / 360 + 0.5;
  const v = 0.5 - Math.asinh(Math.tan(middle.lat * DEGREE)) / (2 * Math.PI);
  const here = at(u, v);
  const east = at(u + STEP, v);
  const south = at(u, v + STEP);
  const area =
    (east.column - here.column) * (south.row - here.row) - (east.row - here.row) * (south.column - here.column);
  const cellsPerTurn = Math.sqrt(Math.abs(area)) / STEP;
  const ground = tileGround(0, middle.lat);
  return { middle, cellsPerTurn, cell: Math.sqrt(ground.east * ground.north) / cellsPerTurn };
}
