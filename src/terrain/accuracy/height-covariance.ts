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
  /** What is left of it once the likely amount is taken off, as `GroundPoint` has it; left out: a multiple of the smoothing. */
  readonly averagingSpread?: Metres;
  /** Its spread where that is not the one given for all, as `GroundPoint` has it. */
  readonly accuracy?: HeightAccuracy;
}

/**
 * Covariance matrix of the height errors of several places on one DEM, m², row by row; symmetric and positive semi-definite.
 *
 * K_ij = C(d_ij), and on the diagonal C(0) + (slope_i · placement)² + a_i²; a_i the spread that averaging leaves, else doubt · smoothing_i; C as in `errorCovariance`, d on
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
  const smoothed = leftOf(own, a) * leftOf(own, b);
  return errorCovariance(own, 0) + placed + smoothed;
}

/** What averaging leaves open at a place, with the sign of its smoothing where that is what it is made from. */
const leftOf = (accuracy: HeightAccuracy, { averagingSpread, smoothing = 0 }: PlaceOnSlope): Metres =>
  averagingSpread ?? Math.sign(smoothing) * Math.sqrt(smoothingVariance(accuracy, smoothing));
