import type { Metres } from '../units/quantity.ts';
import type { Position } from './position.ts';
import { DEGREE, WGS84_FLATTENING, WGS84_SEMI_MAJOR } from './wgs84.ts';

/** A place on a plane that touches the ellipsoid. */
export interface PlanePlace {
  readonly east: Metres;
  readonly north: Metres;
}

/**
 * Places on a plane through `origin`, by the radii of curvature there: for relations between places of one farm, where a
 * part in a thousand does not matter and a plane does, never for a length that is shown.
 *
 * east = N cos φ₀ Δλ, north = M Δφ; N, M radii of curvature in the prime vertical and the meridian. Within 0.1 % up to 10 km
 * from the origin below 60° of latitude. Source: Karney's notation; differential geometry of the ellipsoid.
 */
export function localPlane(origin: Position): (place: Position) => PlanePlace {
  const e2 = WGS84_FLATTENING * (2 - WGS84_FLATTENING);
  const phi = origin.lat * DEGREE;
  const w = 1 - e2 * Math.sin(phi) ** 2;
  const perLongitude = (WGS84_SEMI_MAJOR / Math.sqrt(w)) * Math.cos(phi) * DEGREE;
  const perLatitude = ((WGS84_SEMI_MAJOR * (1 - e2)) / w ** 1.5) * DEGREE;
  return ({ lon, lat }) => ({
    east: perLongitude * (((lon - origin.lon + 540) % 360) - 180),
    north: perLatitude * (lat - origin.lat),
  });
}
