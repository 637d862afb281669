import { DEGREE } from '../../geodesy/wgs84.ts';
import { tileGround } from '../../relief/mercator.ts';
import type { TerrainAbout } from '../../terrain/grid/ground.ts';

/** Without terrain a step is a metre. */
const NO_TERRAIN = { width: 1, height: 1 };
const FULL_TURN = 360;

/** One cell of the DEM in degrees, towards east and towards north. */
export function cellStep(terrain: TerrainAbout | null, lat: number): { readonly lon: number; readonly lat: number } {
  const { width, height } = terrain?.cell ?? NO_TERRAIN;
  const world = tileGround(0, lat);
  return { lon: (width * FULL_TURN) / world.east, lat: (height * FULL_TURN * Math.cos(lat * DEGREE)) / world.north };
}
