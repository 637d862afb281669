import type { Position } from '../../geodesy/position.ts';
import type { Metres, Pascals } from '../../units/quantity.ts';
import type { FittingCount, Plan, PlanRoute, PointId, RouteId, RouteRole } from '../model/plan.ts';
import { type NewPipe, startingPipe } from '../model/starting-pipe.ts';
import { type Edit, type EditCode, refused, withChanges, withEntry } from './edit.ts';
import { finishEdit } from './finish-edit.ts';
import { nameFromId, newFeatureId, withoutUnusedPipes, withPipe } from './new-id.ts';

export interface NewRoute {
  readonly role: RouteRole;
  readonly from: PointId;
  readonly to: PointId;
  /** Vertices between the two points, in order; none for a straight line. */
  readonly between: readonly Position[];
  /** Left out: the role's starting pipe. */
  readonly pipe?: NewPipe;
  /** Left out: a shallow trench. */
  readonly trenchDepth?: Metres;
}

/** Adds a route between two points; `plan.routes.at(-1)` of the result is the new one. */
export function addRoute(plan: Plan, { role, from, to, between, pipe, trenchDepth }: NewRoute): Edit {
  const start = plan.points.find(({ id }) => id === from);
  const end = plan.points.find(({ id }) => id === to);
  if (start === undefined || end === undefined) {
    return refused('unknown-reference', start === undefined ? from : to, 'a point of this plan');
  }
  const id = newFeatureId(plan, role);
  const laid = withPipe(plan, pipe ?? startingPipe(role, plan.units));
  const route: PlanRoute = {
    id,
    role,
    name: nameFromId(id),
    from,
    to,
    vertices: [start.position, ...between, end.position],
    pipe: laid.id,
    fittings: [],
    summits: 'closed',
    ...(trenchDepth !== undefined && { trenchDepth }),
    note: '',
  };
  return finishEdit(
    plan,
    { ...plan, pipes: laid.pipes, routes: [...plan.routes, route] },
    { code: 'add-route', name: route.name },
  );
}

export function removeRoute(plan: Plan, id: RouteId): Edit {
  const route = routeOf(plan, id);
  if (route === undefined) return noRoute(id);
  const routes = plan.routes.filter((candidate) => candidate !== route);
  return finishEdit(plan, withoutUnusedPipes({ ...plan, routes }), { code: 'remove-route', name: route.name });
}

/** Changes the name, the note, or whether the high points are vented. */
export function changeRoute(
  plan: Plan,
  id: RouteId,
  changes: Partial<Pick<PlanRoute, 'name' | 'note' | 'summits'>>,
): Edit {
  return routeChanged(plan, id, 'change-route', (route) => withChanges<PlanRoute>(route, changes));
}

/** Puts a relief valve that opens at a pressure at the start of a delivery line, or takes it away with null. */
export function setRelief(plan: Plan, id: RouteId, opens: Pascals | null): Edit {
  return routeChanged(plan, id, 'change-route', ({ relief: _before, ...route }) =>
    opens === null ? route : { ...route, relief: opens },
  );
}

/** Sets how deep a route is dug in on its whole length; null for a shallow trench. */
export function setTrench(plan: Plan, id: RouteId, depth: Metres | null): Edit {
  return routeChanged(plan, id, 'set-trench', ({ trenchDepth: _before, ...route }) =>
    depth === null ? route : { ...route, trenchDepth: depth },
  );
}

/** Lays a route in a pipe: one of the handbook's rows or one the user describes. */
export function setRoutePipe(plan: Plan, id: RouteId, pipe: NewPipe): Edit {
  const route = routeOf(plan, id);
  if (route === undefined) return noRoute(id);
  const laid = withPipe(plan, pipe);
  const routes = withEntry(plan.routes, route, withChanges(route, { pipe: laid.id }));
  const after = withoutUnusedPipes({ ...plan, pipes: laid.pipes, routes });
  return finishEdit(plan, after, { code: 'set-pipe', name: route.name });
}

/** Sets how many of each fitting a route has; a count of zero takes the fitting off the list. */
export function setFittings(plan: Plan, id: RouteId, fittings: readonly FittingCount[]): Edit {
  const counted = fittings.filter(({ count }) => count !== 0);
  return routeChanged(plan, id, 'set-fittings', (route) => ({ ...route, fittings: counted }));
}

/** Draws the line of a route anew between its two points. */
export function drawRoute(plan: Plan, id: RouteId, between: readonly Position[]): Edit {
  return routeChanged(plan, id, 'draw-route', (route) => ({
    ...route,
    vertices: [...route.vertices.slice(0, 1), ...between, ...route.vertices.slice(-1)],
  }));
}

/** Makes an edit of one route. */
export function routeChanged(plan: Plan, id: RouteId, code: EditCode, change: (route: PlanRoute) => PlanRoute): Edit {
  const route = routeOf(plan, id);
  if (route === undefined) return noRoute(id);
  const next = change(route);
  const routes = withEntry(plan.routes, route, next);
  return finishEdit(plan, { ...plan, routes }, { code, name: next.name });
}

export function routeOf(plan: Plan, id: RouteId): PlanRoute | undefined {
  return plan.routes.find((route) => route.id === id);
}

export function noRoute(id: RouteId): Edit {
  return refused('unknown-reference', id, 'a route of this plan');
}
