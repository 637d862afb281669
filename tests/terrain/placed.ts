import type { Position } from '../../src/geodesy/position.ts';
import { projectionOf } from '../../src/geodesy/projection.ts';
import type { ElevationGrid } from '../../src/terrain/grid/grid.ts';
import { type PlacedGrid, placedGrid } from '../../src/terrain/grid/placed-grid.ts';

/** A grid with its CRS, or a failed test. */
export async function placed(grid: ElevationGrid): Promise<PlacedGrid> {
  const projection = await projectionOf(grid.crs);
  if (!projection.ok) throw new Error(JSON.stringify(projection.problems));
  return placedGrid(grid, projection.value);
}

/** The position of cell coordinates, or a failed test. */
export function positionOf(grid: PlacedGrid, column: number, row: number): Position {
  const position = grid.positionAt({ column, row });
  if (!position) throw new Error(`no position at column ${column}, row ${row}`);
  return position;
}
