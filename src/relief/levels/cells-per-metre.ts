import { placeInTile, tileGround } from './mercator.ts';
import type { TileAddress } from './tile-address.ts';
import { MARGIN, type TileWarp } from './tile-warp.ts';

/** How many columns and rows of a level one metre towards east and towards north is. */
export interface CellsPerMetre {
  readonly columnEast: number;
  readonly rowEast: number;
  readonly columnNorth: number;
  readonly rowNorth: number;
}

/** The mean turn and stretch between ground metres and the cells of a level over a tile; `scale` grid cells a level cell. */
export function cellsPerMetre(tile: TileAddress, warp: TileWarp, scale: number): CellsPerMetre {
  const ground = tileGround(tile.z, placeInTile(tile, 0.5, 0.5).lat);
  const east = ground.east * (1 + 2 * MARGIN) * scale;
  const north = ground.north * (1 + 2 * MARGIN) * scale;
  return {
    columnEast: acrossTile(warp.columns, warp.mesh) / east,
    rowEast: acrossTile(warp.rows, warp.mesh) / east,
    columnNorth: -downTile(warp.columns, warp.mesh) / north,
    rowNorth: -downTile(warp.rows, warp.mesh) / north,
  };
}

function corner(values: Float64Array, mesh: number, i: 0 | 1, j: 0 | 1): number {
  return values[j * mesh * (mesh + 1) + i * mesh] ?? 0;
}

function acrossTile(values: Float64Array, mesh: number): number {
  return (
    (corner(values, mesh, 1, 0) -
      corner(values, mesh, 0, 0) +
      corner(values, mesh, 1, 1) -
      corner(values, mesh, 0, 1)) /
    2
  );
}

function downTile(values: Float64Array, mesh: number): number {
  return (
    (corner(values, mesh, 0, 1) -
      corner(values, mesh, 0, 0) +
      corner(values, mesh, 1, 1) -
      corner(values, mesh, 1, 0)) /
    2
  );
}
