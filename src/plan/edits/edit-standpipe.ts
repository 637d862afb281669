import type { Position } from '../../geodesy/position.ts';
import type { Plan, PlanRoute, PointId } from '../model/plan.ts';
import { type Edit, refused, withEntry } from './edit.ts';
import { finishEdit } from './finish-edit.ts';

/** A place on the drawn way through a standpipe: on its supply line or its drive pipe, and after which vertex. */
export interface PlaceOnWay {
  readonly on: 'supply' | 'drive';
  /** Index of the vertex before the place along that route. */
  readonly vertex: number;
  readonly position: Position;
}

/**
 * Moves a standpipe along the drawn way. The way stays as it is drawn: what the supply line loses the drive pipe gains, and
 * the other way round; where the standpipe stood stays a bend, so that the drive pipe gets the length that the place was chosen for.
 */
export function moveStandpipeAlong(plan: Plan, id: PointId, place: PlaceOnWay): Edit {
  const point = plan.points.find((candidate) => candidate.id === id);
  const supply = plan.routes.find((route) => route.role === 'supply' && route.to === id);
  const drive = plan.routes.find((route) => route.role === 'drive' && route.from === id);
  if (point?.role !== 'standpipe') return refused('unknown-reference', id, 'a standpipe of this plan');
  if (supply === undefined || drive === undefined) {
    return refused('unknown-reference', 'a standpipe without its lines', 'a supply line and a drive pipe');
  }
  const way = [...supply.vertices, ...drive.vertices.slice(1)];
  const before = place.on === 'supply' ? place.vertex : supply.vertices.length - 1 + place.vertex;
  const { position } = place;
  const lines: readonly [PlanRoute, readonly Position[]][] = [
    [supply, [...way.slice(0, before + 1), position]],
    [drive, [position, ...way.slice(before + 1)]],
  ];
  const routes = lines.reduce(
    (all, [route, vertices]) => withEntry(all, route, { ...route, vertices: apart(vertices) }),
    plan.routes,
  );
  const points = withEntry(plan.points, point, { ...point, position });
  return finishEdit(plan, { ...plan, points, routes }, { code: 'move-point', name: point.name });
}

/** Vertices without those that lie on the one before; a place can fall on a vertex. */
function apart(vertices: readonly Position[]): readonly Position[] {
  return vertices.filter((vertex, index) => {
    const before = vertices[index - 1];
    return before === undefined || before.lon !== vertex.lon || before.lat !== vertex.lat;
  });
}
