import type { Metres, Ratio, SquareMetres } from '../../units/quantity.ts';
import type { HeightAccuracy } from '../grid/ground.ts';

/**
 * Cells over which the error of cell averaging fades. With it the spherical model gives 0.80 of the sill one cell apart,
 * as averaged lidar does. Calibration, not published.
 */
export const NUGGET_RANGE_IN_CELLS: Ratio = 1.65;

/** The practical range of an exponential model: at it 95 % of the sill is reached. */
const PRACTICAL_RANGE = 3;

/**
 * Covariance of the height errors of two places on one DEM, without where they are placed.
 *
 * C(d) = (nugget² + quantum²/12) S(d/r) + near² e^(−3d/nearRange) + far² e^(−3d/farRange),
 * S(h) = 1 − 1.5h + 0.5h³ below 1 and 0 beyond, r = 1.65 cells; d horizontal distance, m; C in m².
 * The spherical S is used since a straight fade, 1 − h, is no covariance in the plane: it can give negative variances.
 * Any distance. Sources: G. Matheron, Principles of geostatistics, Economic Geology 58, 1963 (spherical model); nested
 * ranges after R. Hugonnet et al., IEEE JSTARS 15, 2022, doi 10.1109/JSTARS.2022.3188922; constants are a calibration.
 */
export function errorCovariance(accuracy: HeightAccuracy, distance: Metres): SquareMetres {
  const { nugget, cell, near, nearRange, far, farRange, quantum = 0 } = accuracy;
  const h = Math.min(1, distance / (NUGGET_RANGE_IN_CELLS * cell));
  const spherical = 1 - 1.5 * h + 0.5 * h ** 3;
  return (
    (nugget ** 2 + quantisationVariance(quantum)) * spherical +
    near ** 2 * Math.exp((-PRACTICAL_RANGE * distance) / nearRange) +
    far ** 2 * Math.exp((-PRACTICAL_RANGE * distance) / farRange)
  );
}

/** Variance of rounding to a step: quantum²/12, a uniform error. Source: closed form. */
export function quantisationVariance(quantum: Metres): SquareMetres {
  return quantum ** 2 / 12;
}

/** Variance that an uncertain place brings on a slope: (rise over run · placement)². Source: first-order error propagation. */
export function placementVariance(slope: Ratio, placement: Metres): SquareMetres {
  return (slope * placement) ** 2;
}

/** For constants of the user's own that name none. Calibrated by `scripts/bench/height-bands.mjs`, not published. */
export const USUAL_DOUBT: Ratio = 2;

/** Variance that cell averaging brings where the ground curves: (doubt · smoothing)²; smoothing as `GroundPoint` has it, m. */
export function smoothingVariance(accuracy: HeightAccuracy, smoothing: Metres): SquareMetres {
  return ((accuracy.smoothingDoubt ?? USUAL_DOUBT) * smoothing) ** 2;
}

/** Two heights read from one DEM: how far apart, on what slopes, and what cell averaging does to either. */
export interface HeightPair {
  readonly distance: Metres;
  readonly slopes: readonly [Ratio, Ratio];
  readonly smoothing?: readonly [Metres, Metres];
  /** What averaging leaves open at either once its likely amount is taken off; left out: a multiple of the smoothing. */
  readonly averaging?: readonly [Metres, Metres];
}

/**
 * Variance of the difference of two heights read from one DEM.
 *
 * var = 2 (C(0) − C(d)) + Σ ((slope s)² + a²); s placement of a drawn point per axis, m; a what averaging
 * leaves open, m; C as
 * `errorCovariance`.
 */
export function varianceOfDifference(accuracy: HeightAccuracy, pair: HeightPair): SquareMetres {
  const { distance, slopes, smoothing = [0, 0], averaging } = pair;
  const own = (k: 0 | 1): SquareMetres =>
    placementVariance(slopes[k], accuracy.placement) +
    (averaging ? averaging[k] ** 2 : smoothingVariance(accuracy, smoothing[k]));
  return 2 * (errorCovariance(accuracy, 0) - errorCovariance(accuracy, distance)) + own(0) + own(1);
}
