import { compoundCrs, type VerticalCrs, verticalCrs } from '../../geodesy/vertical-crs.ts';
import { type GeoKeys, KEY } from './geo-keys.ts';

/**
 * The vertical CRS of the registry that the file names, itself or as part of a compound one. Codes of GeoTIFF 1.0's own list
 * (5001 to 5106) are not in the registry and say nothing of units.
 */
export async function registeredVertical(keys: GeoKeys): Promise<VerticalCrs | null> {
  const vertical = keys.code(KEY.VerticalCrs) ?? (await compoundVertical(keys));
  return vertical === undefined ? null : verticalCrs(vertical);
}

async function compoundVertical(keys: GeoKeys): Promise<number | undefined> {
  const projected = keys.code(KEY.ProjectedCrs);
  return projected === undefined ? undefined : (await compoundCrs(projected))?.vertical;
}
