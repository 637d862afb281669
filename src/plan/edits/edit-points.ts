import type { Position } from '../../geodesy/position.ts';
import { startingPoint } from '../model/empty-plan.ts';
import type { AreaId, Plan, PlanArea, PlanPoint, PlanRoute, PointId, PointRole, TankPoint } from '../model/plan.ts';
import { type Edit, type EditCode, refused, withChanges, withEntry } from './edit.ts';
import { finishEdit } from './finish-edit.ts';
import { nameFromId, newFeatureId } from './new-id.ts';

/** Adds an area that no line may cross; `plan.areas.at(-1)` of the result is the new one. */
export function addArea(plan: Plan, outline: readonly Position[]): Edit {
  if (outline.length < 3) return refused('few-corners', `${outline.length} corners`, 'three or more');
  const id = newFeatureId({ ...plan, points: [...plan.points, ...plan.areas.map(asTaken)] }, 'area');
  const area: PlanArea = { id, name: nameFromId(id), note: '', outline, gates: [] };
  return finishEdit(plan, { ...plan, areas: [...plan.areas, area] }, { code: 'add-area', name: area.name });
}

/** An area takes an id of the space that points and routes share. */
const asTaken = ({ id }: PlanArea) => ({ id }) as Plan['points'][number];

export function changeArea(plan: Plan, id: AreaId, changes: Partial<Omit<PlanArea, 'id'>>): Edit {
  const area = plan.areas.find((each) => each.id === id);
  if (!area) return refused('unknown-reference', id, 'an area of this plan');
  const areas = withEntry(plan.areas, area, withChanges<PlanArea>(area, changes));
  return finishEdit(plan, { ...plan, areas }, { code: 'change-area', name: area.name });
}

export function removeArea(plan: Plan, id: AreaId): Edit {
  const area = plan.areas.find((each) => each.id === id);
  if (!area) return refused('unknown-reference', id, 'an area of this plan');
  const areas = plan.areas.filter((each) => each !== area);
  return finishEdit(plan, { ...plan, areas }, { code: 'remove-area', name: area.name });
}

type PointOf<Role extends PointRole> = Extract<PlanPoint, { readonly role: Role }>;

/** What may be changed of a point without moving it. */
export type PointChanges<Role extends PointRole> = Partial<Omit<PointOf<Role>, 'id' | 'role' | 'position'>>;

/** Adds a point with its role's starting values; `plan.points.at(-1)` of the result is the new one. */
export function addPoint(plan: Plan, role: PointRole, position: Position): Edit {
  const id = newFeatureId(plan, role);
  const point = startingPoint(role, id, nameFromId(id), position, plan.units);
  return finishEdit(plan, { ...plan, points: [...plan.points, point] }, { code: 'add-point', name: point.name });
}

/** Moves a point and, with it, the ends of the routes that meet there. */
export function movePoint(plan: Plan, id: PointId, position: Position): Edit {
  const point = plan.points.find((candidate) => candidate.id === id);
  if (point === undefined) return noPoint(id);
  const label = { code: 'move-point', name: point.name } as const;
  if (point.position.lon === position.lon && point.position.lat === position.lat) return finishEdit(plan, plan, label);
  const points = withEntry(plan.points, point, { ...point, position });
  const routes = plan.routes.map((route) => withEndsMoved(route, id, position));
  return finishEdit(plan, { ...plan, points, routes }, label);
}

function withEndsMoved(route: PlanRoute, id: PointId, position: Position): PlanRoute {
  if (route.from !== id && route.to !== id) return route;
  const last = route.vertices.length - 1;
  const vertices = route.vertices.map((vertex, index) => {
    const moves = (index === 0 && route.from === id) || (index === last && route.to === id);
    return moves ? position : vertex;
  });
  return { ...route, vertices };
}

/** Removes a point with the routes that meet there and the measurements that are about it. */
export function removePoint(plan: Plan, id: PointId): Edit {
  const point = plan.points.find((candidate) => candidate.id === id);
  if (point === undefined) return noPoint(id);
  const points = plan.points.filter((candidate) => candidate !== point);
  const routes = keptWhere(plan.routes, (route) => route.from !== id && route.to !== id);
  const measurements = keptWhere(plan.measurements, (taken) =>
    taken.kind === 'height' ? taken.point !== id : taken.from !== id && taken.to !== id,
  );
  return finishEdit(plan, { ...plan, points, routes, measurements }, { code: 'remove-point', name: point.name });
}

/** A filtered list; the same list when nothing falls out. */
function keptWhere<Part>(list: readonly Part[], keeps: (part: Part) => boolean): readonly Part[] {
  return list.every(keeps) ? list : list.filter(keeps);
}

export function renamePoint(plan: Plan, id: PointId, name: string): Edit {
  const point = plan.points.find((candidate) => candidate.id === id);
  if (point === undefined) return noPoint(id);
  return pointChanged(plan, point, withChanges(point, { name }), 'rename-point');
}

/** Changes what belongs to the role of a point: its heights, volume, bore, note. */
export function changePoint<Role extends PointRole>(
  plan: Plan,
  id: PointId,
  role: Role,
  changes: PointChanges<Role>,
): Edit {
  const point = plan.points.find((candidate) => candidate.id === id);
  if (point === undefined) return noPoint(id);
  if (!hasRole(point, role)) return refused('wrong-role', `a ${point.role}`, `a ${role}`);
  return pointChanged(plan, point, withChanges<PlanPoint>(point, changes), 'change-point');
}

/** Keeps a candidate tank, sets it aside, or makes it a candidate again. */
export function setStanding(plan: Plan, id: PointId, standing: TankPoint['standing']): Edit {
  const point = plan.points.find((candidate) => candidate.id === id);
  if (point === undefined) return noPoint(id);
  if (point.role !== 'tank') return refused('wrong-role', `a ${point.role}`, 'a tank');
  return pointChanged(plan, point, withChanges(point, { standing }), 'set-standing');
}

function pointChanged(plan: Plan, old: PlanPoint, next: PlanPoint, code: EditCode): Edit {
  const points = withEntry(plan.points, old, next);
  return finishEdit(plan, points === plan.points ? plan : { ...plan, points }, { code, name: next.name });
}

function hasRole<Role extends PointRole>(point: PlanPoint, role: Role): point is PointOf<Role> {
  return point.role === role;
}

function noPoint(id: PointId): Edit {
  return refused('unknown-reference', id, 'a point of this plan');
}
