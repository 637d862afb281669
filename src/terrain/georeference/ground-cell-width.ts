import type { Affine } from '../grid/grid.ts';
import type { ComputableCrs } from './computable-crs.ts';

/** Metres of a degree along the equator of a sphere of the earth's size: 2π · 6 371 008.8 m / 360 (IUGG mean radius). */
const METRES_PER_DEGREE = (2 * Math.PI * 6_371_008.8) / 360;
const METRES_PER_FOOT = 0.3048;

/** Width of a cell on the ground in metres, near enough to judge whether its slopes can be. */
export function groundCellWidth(affine: Affine, size: { columns: number; rows: number }, crs: ComputableCrs): number {
  const along = Math.hypot(affine.a, affine.d);
  if (!crs.geographic) return crs.gridInFeet ? along * METRES_PER_FOOT : along;
  const lat = affine.d * (size.columns / 2) + affine.e * (size.rows / 2) + affine.f;
  return along * METRES_PER_DEGREE * Math.max(0.01, Math.cos((lat * Math.PI) / 180));
}
