import type { Feature, FeatureCollection, LineString, Point } from 'geojson';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Plan, PlanPoint, PointRole, RouteId } from '../../plan/model/plan.ts';
import type { GroundLine, TerrainAbout } from '../../terrain/grid/ground.ts';
import { positionAlong } from '../../terrain/ground/ground-place.ts';
import { visibleText } from '../../units/visible-text.ts';
import type { MapSelection, RouteCursor } from '../state/map-view-props.ts';

type Properties = Record<string, string | number | boolean>;

function point(position: Position, properties: Properties): Feature<Point> {
  return { type: 'Feature', properties, geometry: { type: 'Point', coordinates: [position.lon, position.lat] } };
}

function line(vertices: readonly Position[], properties: Properties): Feature<LineString> {
  const coordinates = vertices.map(({ lon, lat }) => [lon, lat]);
  return { type: 'Feature', properties, geometry: { type: 'LineString', coordinates } };
}

function collection(features: Feature[]): FeatureCollection {
  return { type: 'FeatureCollection', features };
}

/** Areas that must not be crossed with their names, their gates, and the one that is being drawn. */
export function areaFeatures(plan: Plan, corners: readonly Position[]): FeatureCollection {
  const ring = (outline: readonly Position[]) => [...outline, ...outline.slice(0, 1)].map(({ lon, lat }) => [lon, lat]);
  const areas = plan.areas.flatMap(({ name, outline, gates }): Feature[] => [
    {
      type: 'Feature',
      properties: { name: visibleText(name) },
      geometry: { type: 'Polygon', coordinates: [ring(outline)] },
    },
    ...gates.map((gate) => point(gate, { kind: 'gate' })),
  ]);
  const drawn: Feature[] = [
    ...(corners.length > 1 ? [line(corners, {})] : []),
    ...corners.map((corner) => point(corner, { kind: 'corner' })),
  ];
  return collection([...areas, ...drawn]);
}

export function routeFeatures(plan: Plan, selection: MapSelection | null): FeatureCollection {
  const aside = new Set(plan.points.filter(isSetAside).map(({ id }) => id));
  return collection(
    plan.routes.map(({ id, role, name, from, to, vertices }) =>
      line(vertices, {
        id,
        role,
        name: visibleText(name),
        selected: selection?.kind === 'route' && selection.id === id,
        faded: aside.has(from) || aside.has(to),
      }),
    ),
  );
}

/** `targets`: roles that a route being drawn may meet now. */
export function pointFeatures(
  plan: Plan,
  selection: MapSelection | null,
  targets: ReadonlySet<PointRole>,
): FeatureCollection {
  return collection(
    plan.points.map((each) =>
      point(each.position, {
        id: each.id,
        role: each.role,
        name: visibleText(each.name),
        selected: selection?.kind === 'point' && selection.id === each.id,
        target: targets.has(each.role),
        faded: isSetAside(each),
      }),
    ),
  );
}

function isSetAside(each: PlanPoint): boolean {
  return each.role === 'tank' && each.standing === 'set-aside';
}

/** Inner vertices of the selected route; its ends are points. */
export function vertexFeatures(plan: Plan, selection: MapSelection | null): FeatureCollection {
  if (selection?.kind !== 'route') return collection([]);
  const route = plan.routes.find(({ id }) => id === selection.id);
  const features = (route?.vertices ?? []).map((vertex, index) =>
    point(vertex, { route: selection.id, index, selected: selection.vertex === index }),
  );
  return collection(features.slice(1, -1));
}

/** High and low points between the ends of the routes. */
export function turningFeatures(
  evaluation: Evaluation | null,
  grounds: ReadonlyMap<RouteId, GroundLine>,
): FeatureCollection {
  const features: Feature[] = [];
  for (const { id, turnings } of evaluation?.lines ?? []) {
    const ground = grounds.get(id);
    for (const { kind, sample } of turnings) {
      const lon = ground?.lon[sample];
      const lat = ground?.lat[sample];
      if (lon !== undefined && lat !== undefined) features.push(point({ lon, lat }, { kind }));
    }
  }
  return collection(features);
}

export function cursorFeatures(
  cursor: RouteCursor | null,
  grounds: ReadonlyMap<RouteId, GroundLine>,
): FeatureCollection {
  const ground = cursor && grounds.get(cursor.route);
  const position = cursor && ground ? positionAlong(ground, cursor.at) : null;
  return collection(position ? [point(position, {})] : []);
}

/** Lines and points of another plan, without their roles. */
export function faintFeatures(plan: Plan | null): FeatureCollection {
  if (plan === null) return collection([]);
  const lines = plan.routes.map(({ vertices }) => line(vertices, {}));
  return collection([
    ...lines,
    ...plan.points.map(({ position, name }) => point(position, { name: visibleText(name) })),
  ]);
}

/** Places that words speak of. */
export function ringedFeatures(places: readonly Position[]): FeatureCollection {
  return collection(places.map((position) => point(position, {})));
}

/** The point that would catch the next vertex of a route being drawn. */
export function caughtFeatures(caught: PlanPoint | null): FeatureCollection {
  return collection(caught ? [point(caught.position, { id: caught.id })] : []);
}

/** A route being drawn by key: its vertices, and the line once there are two. */
export function sketchFeatures(vertices: readonly Position[]): FeatureCollection {
  const dots = vertices.map((vertex) => point(vertex, {}));
  return collection(vertices.length < 2 ? dots : [line(vertices, {}), ...dots]);
}

export function outlineFeatures(terrain: TerrainAbout | null): FeatureCollection {
  const [first] = terrain?.outline ?? [];
  return collection(terrain && first ? [line([...terrain.outline, first], {})] : []);
}
