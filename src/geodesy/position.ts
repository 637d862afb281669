import type { Degrees } from '../units/quantity.ts';

/** A place on the WGS 84 ellipsoid, in degrees, as GeoJSON means it: longitude east, latitude north. */
export interface Position {
  readonly lon: Degrees;
  readonly lat: Degrees;
}
