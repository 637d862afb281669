import type { Metres, Ratio } from '../units/quantity.ts';

/** Source: NGA.STND.0036, Department of Defense World Geodetic System 1984, version 1.0.0, 2014, table 3.1. */
export const WGS84_SEMI_MAJOR: Metres = 6378137;
export const WGS84_FLATTENING: Ratio = 1 / 298.257223563;

export const DEGREE = Math.PI / 180;

/** How a coordinate reference system was stated: a code of the EPSG registry, or a proj string built from a file's own keys. */
export type CrsReference =
  | { readonly kind: 'epsg'; readonly code: number }
  | { readonly kind: 'proj'; readonly definition: string; readonly title: string };
