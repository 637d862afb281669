import { localPlane, type PlanePlace } from '../../geodesy/local-plane.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Metres, Ratio } from '../../units/quantity.ts';
import type { HeightAccuracy } from '../grid/ground.ts';
import { errorCovariance, placementVariance, smoothingVariance } from './height-variogram.ts';

/** A place whose height comes from the DEM, with the slope of the ground there. */
export interface PlaceOnSlope {
  readonly position: Position;
  readonly slope: Ratio;
  /** What cell averaging does to it, as `GroundPoint` has it; left out: nothing. */
  readonly smoothing?: Metres;
  /** Its spread where that is not the one given for all, as `GroundPoint` has it. */
  readonly accuracy?: HeightAccuracy;
}

/**
 * Covariance matrix of the height errors of several places on one DEM, m², row by row; symmetric and positive semi-definite.
 *
 * K_ij = C(d_ij), and on the diagonal C(0) + (slope_i · placement)² + (doubt · smoothing_i)²; C as in `errorCovariance`, d on
 * a plane through the first place, on which a covariance stays positive. Two entries at the very same place are one place:
 * they share its placement error too. Heights of different accuracy classes come from different surveys and have no error
 * in common.
 */
export function heightCovariance(accuracy: HeightAccuracy, places: readonly PlaceOnSlope[]): Float64Array {
  const n = places.length;
  const matrix = new Float64Array(n * n);
  const onPlane = localPlane(places[0]?.position ?? { lon: 0, lat: 0 });
  const where = places.map((p) => onPlane(p.position));
  places.forEach((a, i) => {
    for (let j = 0; j <= i; j++) {
      const [b, here, there] = [places[j], where[i], where[j]];
      if (b === undefined || here === undefined || there === undefined) continue;
      const value = covarianceOf(accuracy, { a, b }, apart(here, there));
      matrix[i * n + j] = value;
      matrix[j * n + i] = value;
    }
  });
  return matrix;
}

const apart = (p: PlanePlace, q: PlanePlace): Metres => Math.hypot(q.east - p.east, q.north - p.north);

function covarianceOf(
  accuracy: HeightAccuracy,
  { a, b }: { readonly a: PlaceOnSlope; readonly b: PlaceOnSlope },
  distance: Metres,
): number {
  const own = a.accuracy ?? accuracy;
  if (own.id !== (b.accuracy ?? accuracy).id) return 0;
  const same = a.position.lon === b.position.lon && a.position.lat === b.position.lat;
  if (!same) return errorCovariance(own, distance);
  // Slope and smoothing are those of the one place; products keep the matrix positive even if they were given unequal.
  const placed = a.slope * b.slope * placementVariance(1, own.placement);
  const smoothed = (a.smoothing ?? 0) * (b.smoothing ?? 0) * smoothingVariance(own, 1);
  return errorCovariance(own, 0) + placed + smoothed;
}
