import type { Metres } from '../../units/quantity.ts';

/** A usual size of drive pipe. */
export interface DriveSize {
  readonly inches: string;
  /** Nominal diameter, mm. */
  readonly nominal: number;
  readonly bore: Metres;
  readonly wall: Metres;
}

/**
 * Usual drive pipe sizes from 3/8 in to 4 in, as galvanized steel pipe of Schedule 40.
 * Source: ASTM A53 / ASME B36.10M, outside diameter and wall; bore = outside diameter − 2 walls.
 */
export const usualDriveSizes: readonly DriveSize[] = [
  { inches: '3/8', nominal: 10, bore: 0.01252, wall: 0.00231 },
  { inches: '1/2', nominal: 15, bore: 0.0158, wall: 0.00277 },
  { inches: '3/4', nominal: 20, bore: 0.02093, wall: 0.00287 },
  { inches: '1', nominal: 25, bore: 0.02664, wall: 0.00338 },
  { inches: '1 1/4', nominal: 32, bore: 0.03505, wall: 0.00356 },
  { inches: '1 1/2', nominal: 40, bore: 0.04089, wall: 0.00368 },
  { inches: '2', nominal: 50, bore: 0.0525, wall: 0.00391 },
  { inches: '2 1/2', nominal: 65, bore: 0.06271, wall: 0.00516 },
  { inches: '3', nominal: 80, bore: 0.07793, wall: 0.00549 },
  { inches: '4', nominal: 100, bore: 0.10226, wall: 0.00602 },
];
