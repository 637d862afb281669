import type { Edit } from '../../src/plan/edits/edit.ts';
import { addPoint } from '../../src/plan/edits/edit-points.ts';
import { addRoute } from '../../src/plan/edits/edit-routes.ts';
import { emptyPlan } from '../../src/plan/model/empty-plan.ts';
import type { Plan, PointRole, RouteRole } from '../../src/plan/model/plan.ts';

/** Takes an edit that a test needs to go through. */
export function made(edit: Edit): Plan {
  if (!edit.ok) throw new Error(`the test's plan was refused: ${JSON.stringify(edit.problems)}`);
  return edit.value.plan;
}

/** A plan built from short words: points by role in a row going east, then routes by role and ends. */
export function planMade(
  roles: readonly PointRole[],
  routes: readonly (readonly [RouteRole, from: string, to: string])[] = [],
): Plan {
  let plan = emptyPlan({ name: 'Made for a test', units: 'metric' });
  roles.forEach((role, index) => {
    plan = made(addPoint(plan, role, { lon: -30 + index / 1000, lat: 38 }));
  });
  for (const [role, from, to] of routes) plan = made(addRoute(plan, { role, from, to, between: [] }));
  return plan;
}
