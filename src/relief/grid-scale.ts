import type { Position } from '../geodesy/position.ts';
import { DEGREE } from '../geodesy/wgs84.ts';
import type { PlacedGrid } from '../terrain/grid/placed-grid.ts';
import type { Metres } from '../units/quantity.ts';
import { placeInTile, tileGround } from './mercator.ts';

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

/** Null for a grid whose middle has no place on the ellipsoid. */
export function gridScale(placed: PlacedGrid): GridScale | null {
  const middle = placed.positionAt({ column: placed.grid.columns / 2, row: placed.grid.rows / 2 });
  if (!middle) return null;
  const u = middle.lon / 360 + 0.5;
  const v = 0.5 - Math.asinh(Math.tan(middle.lat * DEGREE)) / (2 * Math.PI);
  const here = placed.cellAt(placeInTile(WORLD, u, v));
  const east = placed.cellAt(placeInTile(WORLD, u + STEP, v));
  const south = placed.cellAt(placeInTile(WORLD, u, v + STEP));
  if (!here || !east || !south) return null;
  const area =
    (east.column - here.column) * (south.row - here.row) - (east.row - here.row) * (south.column - here.column);
  const cellsPerTurn = Math.sqrt(Math.abs(area)) / STEP;
  const ground = tileGround(0, middle.lat);
  return { middle, cellsPerTurn, cell: Math.sqrt(ground.east * ground.north) / cellsPerTurn };
}
