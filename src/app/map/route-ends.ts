import type { Map as MapLibreMap } from 'maplibre-gl';
import type { Position } from '../../geodesy/position.ts';
import type { PlanPoint, PointId, PointRole, RouteRole } from '../../plan/model/plan.ts';

type Ends = Readonly<Record<'from' | 'to', ReadonlySet<PointRole>>>;

function ends(from: readonly PointRole[], to: readonly PointRole[]): Ends {
  return { from: new Set(from), to: new Set(to) };
}

/** Which points a route of a role may start and end at; the first of each is the usual one. */
const ENDS: Readonly<Record<RouteRole, Ends>> = {
  supply: ends(['source'], ['standpipe']),
  drive: ends(['standpipe', 'source'], ['pump']),
  delivery: ends(['pump'], ['tank', 'trough']),
  gravity: ends(['tank', 'source'], ['trough']),
};

export function rolesAtEnd(route: RouteRole, end: 'from' | 'to'): ReadonlySet<PointRole> {
  return ENDS[route][end];
}

/** How near a point of a fitting role catches the pointer, CSS pixels. */
const CATCH = 16;
/** A vertex this near to a point lies on it; rounding of coordinates is far smaller. */
const ON_IT = 1;

/** The nearest point of the wanted roles around a place of the map; null when none is near enough. */
export function catchingPoint(
  map: MapLibreMap,
  points: readonly PlanPoint[],
  roles: ReadonlySet<PointRole>,
  at: { readonly x: number; readonly y: number; readonly reach?: number },
): PlanPoint | null {
  let best: PlanPoint | null = null;
  let least = at.reach ?? CATCH;
  for (const point of points) {
    if (!roles.has(point.role)) continue;
    const place = map.project([point.position.lon, point.position.lat]);
    const off = Math.hypot(place.x - at.x, place.y - at.y);
    if (off > least) continue;
    best = point;
    least = off;
  }
  return best;
}

/** The fitting point on which an end of a route lies. */
export function pointAtEnd(
  map: MapLibreMap,
  points: readonly PlanPoint[],
  role: RouteRole,
  end: { readonly kind: 'from' | 'to'; readonly position: Position },
): PlanPoint | null {
  const { x, y } = map.project([end.position.lon, end.position.lat]);
  return catchingPoint(map, points, rolesAtEnd(role, end.kind), { x, y, reach: ON_IT });
}

export interface WholeRoute {
  readonly vertices: readonly Position[];
  readonly from: PointId | null;
  readonly to: PointId | null;
}

/** A drawn line with its ends exactly on the points they met; null for less than a line. */
export function wholeRoute(
  map: MapLibreMap,
  points: readonly PlanPoint[],
  role: RouteRole,
  drawn: readonly Position[],
): WholeRoute | null {
  const vertices = withoutRepeats(drawn);
  const first = vertices[0];
  const last = vertices[vertices.length - 1];
  if (!first || !last || vertices.length < 2) return null;
  const from = pointAtEnd(map, points, role, { kind: 'from', position: first });
  const to = pointAtEnd(map, points, role, { kind: 'to', position: last });
  return {
    vertices: [from?.position ?? first, ...vertices.slice(1, -1), to?.position ?? last],
    from: from?.id ?? null,
    to: to?.id ?? null,
  };
}

function withoutRepeats(vertices: readonly Position[]): Position[] {
  return vertices.filter(({ lon, lat }, at) => {
    const before = vertices[at - 1];
    return !before || before.lon !== lon || before.lat !== lat;
  });
}
