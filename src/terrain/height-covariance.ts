import { distanceBetween } from '../geodesy/geodesic.ts';
import type { Position } from '../geodesy/position.ts';
import type { Metres, Ratio } from '../units/quantity.ts';
import type { HeightAccuracy } from './ground.ts';
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
 * K_ij = C(d_ij), and on the diagonal C(0) + (slope_i · placement)² + (doubt · smoothing_i)²; C as in `errorCovariance`. Two entries at the very same
 * place are one place: they share its placement error too. Heights of different accuracy classes come from
 * different surveys and have no error in common.
 */
export function heightCovariance(accuracy: HeightAccuracy, places: readonly PlaceOnSlope[]): Float64Array {
  const n = places.length;
  const matrix = new Float64Array(n * n);
  places.forEach((a, i) => {
    places.slice(0, i + 1).forEach((b, j) => {
      const value = covarianceOf(accuracy, a, b);
      matrix[i * n + j] = value;
      matrix[j * n + i] = value;
    });
  });
  return matrix;
}

function covarianceOf(accuracy: HeightAccuracy, a: PlaceOnSlope, b: PlaceOnSlope): number {
  const own = a.accuracy ?? accuracy;
  if (own.id !== (b.accuracy ?? accuracy).id) return 0;
  const same = a.position.lon === b.position.lon && a.position.lat === b.position.lat;
  if (!same) return errorCovariance(own, distanceBetween(a.position, b.position));
  // Slope and smoothing are those of the one place; products keep the matrix positive even if they were given unequal.
  const placed = a.slope * b.slope * placementVariance(1, own.placement);
  const smoothed = (a.smoothing ?? 0) * (b.smoothing ?? 0) * smoothingVariance(own, 1);
  return errorCovariance(own, 0) + placed + smoothed;
}
