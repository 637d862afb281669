import geodesic from 'geographiclib-geodesic';
import type { Metres } from '../units/quantity.ts';
import type { Position } from './position.ts';
import { DEGREE, WGS84_SEMI_MAJOR } from './wgs84.ts';

const { Geodesic } = geodesic;

/** One piece of a drawn line, between two vertices: where it is after so many metres. */
export interface GeodesicStretch {
  readonly length: Metres;
  /**
   * Spacing of exact points at which a cubic through four of them strays at most a nanometre from the geodesic; 0 where it
   * comes too near a pole for any.
   */
  readonly cubicSpacing: Metres;
  /** Exact place; its longitude runs on without a jump at ±180. */
  placeAt(distance: Metres): Position;
}

const POSITION = Geodesic.LATITUDE | Geodesic.LONGITUDE | Geodesic.LONG_UNROLL;

export function geodesicStretch(from: Position, to: Position): GeodesicStretch {
  const caps = POSITION | Geodesic.DISTANCE_IN | Geodesic.DISTANCE;
  const line = Geodesic.WGS84.InverseLine(from.lat, from.lon, to.lat, to.lon, caps);
  return {
    length: line.s13,
    cubicSpacing: cubicSpacing(poleDistance(from, to, line.s13)),
    placeAt(distance) {
      const found = line.Position(distance, POSITION);
      return { lon: found.lon2 ?? from.lon, lat: found.lat2 ?? from.lat };
    },
  };
}

/** Least distance of a stretch from the earth's axis, m: that of the nearer end, less half the stretch. */
function poleDistance(from: Position, to: Position, length: Metres): Metres {
  const nearest = Math.max(Math.abs(from.lat), Math.abs(to.lat));
  return Math.max(0, WGS84_SEMI_MAJOR * Math.cos(nearest * DEGREE) - length / 2);
}

const NANOMETRE: Metres = 1e-9;

/**
 * Spacing H over which a cubic through four equally spaced points of a geodesic errs by at most ε in any direction.
 *
 * H = (2 c³ ε)^¼; c distance from the earth's axis, m. With dλ/dσ = sin α₀ / cos² φ, analytic within c/R of every real point,
 * Cauchy's estimate on half that radius gives |d⁴λ/dσ⁴| ≤ 192 / cos⁴ φ, and the cubic through nodes H/3 apart errs by at most
 * (H/3)⁴/24 of it: H⁴/(10 c³), a fifth of H⁴/(2 c³), which leaves room for the flattening (1 %).
 * Source: derived here; the test compares with exact points.
 */
function cubicSpacing(fromAxis: Metres): Metres {
  return (2 * fromAxis ** 3 * NANOMETRE) ** (1 / 4);
}
