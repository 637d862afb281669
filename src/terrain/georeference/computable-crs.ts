import { projectionOf } from '../../geodesy/projection.ts';
import type { CrsReference } from '../../geodesy/wgs84.ts';
import { FileRefusal } from '../bytes/file-refusal.ts';
import type { Affine } from '../grid/grid.ts';

/** Metres of a degree along the equator of a sphere of the earth's size: 2π · 6 371 008.8 m / 360 (IUGG mean radius). */
const METRES_PER_DEGREE = (2 * Math.PI * 6_371_008.8) / 360;
const METRES_PER_FOOT = 0.3048;

/** Width of a cell on the ground in metres, near enough to judge whether its slopes can be. */
export function groundCellWidth(affine: Affine, size: { columns: number; rows: number }, crs: ComputableCrs): number {
  const along = Math.hypot(affine.a, affine.d);
  if (!crs.geographic) return crs.gridUnit !== null ? along * METRES_PER_FOOT : along;
  const lat = affine.d * (size.columns / 2) + affine.e * (size.rows / 2) + affine.f;
  return along * METRES_PER_DEGREE * Math.max(0.01, Math.cos((lat * Math.PI) / 180));
}

/** A CRS that the planner can compute, with what its coordinates are. */
export interface ComputableCrs {
  readonly reference: CrsReference;
  readonly geographic: boolean;
  /** The foot that the grid is laid out in, which makes an undeclared unit of the heights doubtful; null where in none. */
  readonly gridUnit: 'foot' | 'US survey foot' | null;
}

const SHORTEST_FOOT = 0.3;
const LONGEST_FOOT = 0.31;
/** An international foot has 0.3048 m exactly, a survey foot 1200/3937 m: half of what they differ by. */
const NEAR_A_FOOT = 3e-7;

function footOf(metresPerUnit: number): ComputableCrs['gridUnit'] {
  if (metresPerUnit <= SHORTEST_FOOT || metresPerUnit >= LONGEST_FOOT) return null;
  return Math.abs(metresPerUnit - METRES_PER_FOOT) < NEAR_A_FOOT ? 'foot' : 'US survey foot';
}

/** Looks a CRS up; one that cannot be computed is refused by name. */
export async function computableCrs(reference: CrsReference): Promise<ComputableCrs> {
  const projection = await projectionOf(reference);
  if (!projection.ok) {
    const [problem = { code: 'crs', path: '', found: 'an unknown CRS', expected: 'a known one' }] = projection.problems;
    throw new FileRefusal({ ...problem, path: problem.path === '' ? '' : 'coordinate reference system' });
  }
  const { geographic, metresPerUnit } = projection.value;
  return { reference, geographic, gridUnit: geographic ? null : footOf(metresPerUnit) };
}
