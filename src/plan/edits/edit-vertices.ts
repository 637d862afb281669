import type { Position } from '../../geodesy/position.ts';
import type { Plan, PlanRoute, RouteId } from '../model/plan.ts';
import { type Edit, type EditCode, refused } from './edit.ts';
import { noRoute, routeChanged, routeOf } from './edit-routes.ts';

/** Moves a vertex between the ends of a route; an end moves with its point. */
export function moveVertex(plan: Plan, id: RouteId, index: number, position: Position): Edit {
  return innerChanged({ plan, id, index, code: 'move-vertex' }, (vertices) => vertices.with(index, position));
}

/** Takes a vertex between the ends out of a route. */
export function deleteVertex(plan: Plan, id: RouteId, index: number): Edit {
  return innerChanged({ plan, id, index, code: 'delete-vertex' }, (vertices) => vertices.toSpliced(index, 1));
}

/** Puts a new vertex into a route so that it gets the number `index`. */
export function insertVertex(plan: Plan, id: RouteId, index: number, position: Position): Edit {
  const route = routeOf(plan, id);
  if (route === undefined) return noRoute(id);
  if (!isInner(index, route.vertices.length)) return notInner(index, route.vertices.length - 1);
  return withVertices(plan, id, 'insert-vertex', (vertices) => vertices.toSpliced(index, 0, position));
}

interface VertexEdit {
  readonly plan: Plan;
  readonly id: RouteId;
  readonly index: number;
  readonly code: EditCode;
}

type Reshape = (vertices: readonly Position[]) => readonly Position[];

function innerChanged({ plan, id, index, code }: VertexEdit, reshape: Reshape): Edit {
  const route = routeOf(plan, id);
  if (route === undefined) return noRoute(id);
  const last = route.vertices.length - 1;
  return isInner(index, last) ? withVertices(plan, id, code, reshape) : notInner(index, last - 1);
}

function withVertices(plan: Plan, id: RouteId, code: EditCode, reshape: Reshape): Edit {
  return routeChanged(plan, id, code, (route: PlanRoute) => ({ ...route, vertices: reshape(route.vertices) }));
}

function isInner(index: number, end: number): boolean {
  return Number.isInteger(index) && index > 0 && index < end;
}

function notInner(index: number, most: number): Edit {
  const expected = most < 1 ? 'a route with a vertex between its ends' : `a vertex from 1 to ${most}`;
  return refused('not-between-ends', String(index), expected);
}
