import type { Position } from '../../geodesy/position.ts';
import { DEGREE, WGS84_FLATTENING, WGS84_SEMI_MAJOR } from '../../geodesy/wgs84.ts';
import type { Degrees, Metres } from '../../units/quantity.ts';
import type { TileAddress } from './tile-address.ts';

const HALF_TURN: Degrees = 180;

/**
 * The place at the share (u, v) of a Web Mercator tile, u from its west edge, v from its north edge.
 *
 * lon = 2π (x + u) / 2^z − π, lat = atan(sinh(π − 2π (y + v) / 2^z)), in radians.
 * Source: OGC Two Dimensional Tile Matrix Set 2.0, 2022, annex D.1 (WebMercatorQuad); EPSG method 1024.
 */
export function placeInTile(tile: TileAddress, u: number, v: number): Position {
  const turns = 2 ** tile.z;
  const lon = ((tile.x + u) / turns) * 2 * HALF_TURN - HALF_TURN;
  const lat = Math.atan(Math.sinh(Math.PI * (1 - (2 * (tile.y + v)) / turns))) / DEGREE;
  return { lon, lat };
}

/** How far one tile side reaches on the ground near a latitude, m. */
export interface TileGround {
  readonly east: Metres;
  readonly north: Metres;
}

/**
 * Ground length of a tile side at a latitude, on the WGS 84 ellipsoid.
 *
 * east = 2π N cos φ / 2^z, north = 2π M cos φ / 2^z with N = a / √(1 − e² sin² φ), M = a (1 − e²) / (1 − e² sin² φ)^1.5;
 * φ latitude, a semi-major axis (m), e² = f (2 − f). Because dφ/dy of Web Mercator is cos φ.
 * Source: Snyder, Map Projections: A Working Manual, USGS Professional Paper 1395, 1987, eq. 4-18 to 4-20.
 */
export function tileGround(zoom: number, latitude: Degrees): TileGround {
  const eccentricity2 = WGS84_FLATTENING * (2 - WGS84_FLATTENING);
  const phi = latitude * DEGREE;
  const w2 = 1 - eccentricity2 * Math.sin(phi) ** 2;
  const side = (2 * Math.PI * WGS84_SEMI_MAJOR * Math.cos(phi)) / 2 ** zoom;
  return { east: side / Math.sqrt(w2), north: (side * (1 - eccentricity2)) / w2 ** 1.5 };
}
