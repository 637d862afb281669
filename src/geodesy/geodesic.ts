import geodesic from 'geographiclib-geodesic';
import type { Degrees, Metres } from '../units/quantity.ts';
import type { Position } from './position.ts';
import { DEGREE } from './wgs84.ts';

const { Geodesic } = geodesic;

/** The shortest way between two places: its length and the direction in which it sets out, clockwise from north. */
export interface Course {
  readonly distance: Metres;
  /** From −180 to 180. */
  readonly azimuth: Degrees;
}

/**
 * Length and first azimuth of the geodesic between two places on the ellipsoid, to about 15 nm.
 * Source: C. F. F. Karney, Algorithms for geodesics, Journal of Geodesy 87, 2013, pages 43-55, doi 10.1007/s00190-012-0578-z.
 */
export function courseBetween(from: Position, to: Position): Course {
  const found = Geodesic.WGS84.Inverse(from.lat, from.lon, to.lat, to.lon, Geodesic.DISTANCE | Geodesic.AZIMUTH);
  return { distance: found.s12 ?? 0, azimuth: found.azi1 ?? 0 };
}

export function distanceBetween(from: Position, to: Position): Metres {
  return Geodesic.WGS84.Inverse(from.lat, from.lon, to.lat, to.lon, Geodesic.DISTANCE).s12 ?? 0;
}

/** The place at a distance along a geodesic that sets out in a direction. */
export function destination(from: Position, course: Course): Position {
  const wanted = Geodesic.LATITUDE | Geodesic.LONGITUDE;
  const found = Geodesic.WGS84.Direct(from.lat, from.lon, course.azimuth, course.distance, wanted);
  return { lon: found.lon2 ?? from.lon, lat: found.lat2 ?? from.lat };
}

/** Metres east and north of one place, seen from another: the geodesic's length laid off in its first direction. */
export interface Offset {
  readonly east: Metres;
  readonly north: Metres;
}

export function offsetBetween(from: Position, to: Position): Offset {
  const { distance, azimuth } = courseBetween(from, to);
  return { east: distance * Math.sin(azimuth * DEGREE), north: distance * Math.cos(azimuth * DEGREE) };
}
