import type { PlanPoint, PointRole } from '../model/plan.ts';
import type { Placed, PlanDraft } from '../model/plan-draft.ts';
import type { Problem } from '../model/problem.ts';
import { repeatedIds } from './repeated.ts';

const single: readonly PointRole[] = ['source', 'standpipe', 'pump'];

/** Points and routes share one space of ids; a plan has one source, one standpipe and one pump at most. */
export function checkPoints({ points, routes }: PlanDraft): readonly Problem[] {
  const ids = [...points, ...routes].map(({ part, path }) => ({ id: part.id, path: `${path}.id` }));
  return [
    ...repeatedIds(ids),
    ...single.flatMap((role) => checkSingle(points, role)),
    ...points.flatMap(checkStandpipe),
  ];
}

function checkSingle(points: readonly Placed<PlanPoint>[], role: PointRole): readonly Problem[] {
  return points
    .filter(({ part }) => part.role === role)
    .slice(1)
    .map(({ path }) => ({
      code: 'second-of-role',
      path: `${path}.properties.role`,
      found: `another ${role}`,
      expected: `one ${role} at most`,
    }));
}

function checkStandpipe({ part, path }: Placed<PlanPoint>): readonly Problem[] {
  if (part.role !== 'standpipe' || part.topHeight >= part.inletHeight) return [];
  return [
    {
      code: 'out-of-order',
      path: `${path}.properties.top_height_m`,
      found: String(part.topHeight),
      expected: `at least the inlet's height, ${part.inletHeight}`,
    },
  ];
}
