import type { Affine, CrsReference } from '../grid/grid.ts';

/** Hartebeesthoek94 / Lo15 to Lo33: a code for every second degree. Source: EPSG registry, 2046 to 2055. */
const FIRST = { code: 2046, meridian: 15 } as const;
const LAST_CODE = 2055;

/**
 * A South African Lo grid, whose coordinates run west and south, as a file has them. Many files turn both round, so that they run
 * east and north: there a northing south of the equator is negative, and a southing is not. Every other CRS stays as it is.
 */
export function loGrid(reference: CrsReference, { f }: Pick<Affine, 'f'>): CrsReference {
  if (reference.kind !== 'epsg' || reference.code < FIRST.code || reference.code > LAST_CODE) return reference;
  const meridian = FIRST.meridian + 2 * (reference.code - FIRST.code);
  const axis = f < 0 ? '' : ' +axis=wsu';
  const definition = `+proj=tmerc +lat_0=0 +lon_0=${meridian} +k=1 +x_0=0 +y_0=0${axis} +ellps=WGS84 +towgs84=0,0,0 +no_defs`;
  return { kind: 'proj', definition, title: `Hartebeesthoek94 / Lo${meridian}` };
}
