import type { CrsReference } from '../../geodesy/crs-reference.ts';
import { projectionOf } from '../../geodesy/projection.ts';
import { FileRefusal } from '../bytes/file-refusal.ts';

/** A CRS that the planner can compute, with what its coordinates are. */
export interface ComputableCrs {
  readonly reference: CrsReference;
  readonly geographic: boolean;
  /** Whether the grid is laid out in feet of some kind, which makes an undeclared unit of the heights doubtful. */
  readonly gridInFeet: boolean;
}

const SHORTEST_FOOT = 0.3;
const LONGEST_FOOT = 0.31;

/** Looks a CRS up; one that cannot be computed is refused by name. */
export async function computableCrs(reference: CrsReference): Promise<ComputableCrs> {
  const projection = await projectionOf(reference);
  if (!projection.ok) {
    const [problem = { code: 'crs', path: '', found: 'an unknown CRS', expected: 'a known one' }] = projection.problems;
    throw new FileRefusal({ ...problem, path: problem.path === '' ? '' : 'coordinate reference system' });
  }
  const { geographic, metresPerUnit } = projection.value;
  const gridInFeet = !geographic && metresPerUnit > SHORTEST_FOOT && metresPerUnit < LONGEST_FOOT;
  return { reference, geographic, gridInFeet };
}
