import { offsetBetween } from '../../geodesy/geodesic.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Planar, Projection } from '../../geodesy/projection.ts';
import type { Metres } from '../../units/quantity.ts';
import type { Affine, ElevationGrid } from './grid.ts';

/** Cell coordinates as `Affine` counts them: the middle of the first cell is at (0.5, 0.5). */
export interface CellPlace {
  readonly column: number;
  readonly row: number;
}

/** The frame of a grid of cells, whatever its cells hold. */
export interface GridFrame {
  readonly name: string;
  readonly columns: number;
  readonly rows: number;
  readonly affine: Affine;
}

/** A grid with its CRS made computable: from a position to cells and back. */
export interface PlacedGrid<Grid extends GridFrame = ElevationGrid> {
  readonly grid: Grid;
  readonly projection: Projection;
  /** Null where the CRS has no such place; a place outside the grid is given all the same. */
  cellAt(position: Position): CellPlace | null;
  positionAt(cell: CellPlace): Position | null;
}

const FULL_TURN = 360;

export function placedGrid<Grid extends GridFrame>(grid: Grid, projection: Projection): PlacedGrid<Grid> {
  const { a, b, c, d, e, f } = grid.affine;
  const determinant = a * e - b * d;
  if (!Number.isFinite(determinant) || determinant === 0) {
    throw new Error(`affine of ${grid.name}: found determinant ${determinant}, expected cells with an area`);
  }
  const middleX = a * (grid.columns / 2) + b * (grid.rows / 2) + c;
  const near = (x: number): number =>
    projection.geographic ? x + FULL_TURN * Math.round((middleX - x) / FULL_TURN) : x;
  return {
    grid,
    projection,
    cellAt(position) {
      const place = projection.forward(position);
      if (!place) return null;
      const x = near(place.x) - c;
      const y = place.y - f;
      return { column: (e * x - b * y) / determinant, row: (a * y - d * x) / determinant };
    },
    positionAt({ column, row }) {
      return projection.inverse({ x: a * column + b * row + c, y: d * column + e * row + f } satisfies Planar);
    },
  };
}

/**
 * How a step of one cell moves on the ground near a place, metres east and north:
 * one column is (eastPerColumn, northPerColumn), one row (eastPerRow, northPerRow).
 */
export interface CellOnGround {
  readonly eastPerColumn: Metres;
  readonly northPerColumn: Metres;
  readonly eastPerRow: Metres;
  readonly northPerRow: Metres;
}

/** The cell on the ground at a place of the grid, from the geodesics across it; null where the CRS has no such place. */
export function cellOnGround(placed: PlacedGrid<GridFrame>, { column, row }: CellPlace): CellOnGround | null {
  const west = placed.positionAt({ column: column - 0.5, row });
  const east = placed.positionAt({ column: column + 0.5, row });
  const above = placed.positionAt({ column, row: row - 0.5 });
  const below = placed.positionAt({ column, row: row + 0.5 });
  if (!west || !east || !above || !below) return null;
  const acrossColumn = offsetBetween(west, east);
  const acrossRow = offsetBetween(above, below);
  return {
    eastPerColumn: acrossColumn.east,
    northPerColumn: acrossColumn.north,
    eastPerRow: acrossRow.east,
    northPerRow: acrossRow.north,
  };
}

/** Width and height of a cell on the ground, m. */
export function cellSize(cell: CellOnGround): { readonly width: Metres; readonly height: Metres } {
  return {
    width: Math.hypot(cell.eastPerColumn, cell.northPerColumn),
    height: Math.hypot(cell.eastPerRow, cell.northPerRow),
  };
}
