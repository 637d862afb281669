import type { Position } from '../../geodesy/position.ts';
import type { Plan, PointId, RouteId } from '../../plan/model/plan.ts';
import type { GroundLine, GroundPoint, Terrain } from '../../terrain/grid/ground.ts';

/** The ground under a plan: an entry for each of its points and routes. */
export interface PlanGround {
  readonly points: ReadonlyMap<PointId, GroundPoint>;
  readonly lines: ReadonlyMap<RouteId, GroundLine>;
}

/** As much of a terrain as is needed to ask for the ground. */
export type GroundSource = Pick<Terrain, 'groundAt' | 'groundAlong'>;

/** Lines and points kept; a long drag would otherwise hold every place it passed. */
const MOST_KEPT = 400;

/** Ground that was asked for before, by geometry: an undo or a change of pipe asks the terrain nothing. */
export class GroundCache {
  readonly #lines = new Map<string, GroundLine>();
  readonly #points = new Map<string, GroundPoint>();

  /** The ground of a plan, when all of it is known already. */
  known(plan: Plan): PlanGround | null {
    const points = plan.points.map((point) => [point.id, this.#points.get(placeKey(point.position))] as const);
    const lines = plan.routes.map((route) => [route.id, this.#lines.get(lineKey(route.vertices))] as const);
    const foundPoints = points.flatMap(([id, ground]) => (ground === undefined ? [] : [[id, ground] as const]));
    const foundLines = lines.flatMap(([id, ground]) => (ground === undefined ? [] : [[id, ground] as const]));
    if (foundPoints.length < points.length || foundLines.length < lines.length) return null;
    return { points: new Map(foundPoints), lines: new Map(foundLines) };
  }

  /** Asks the terrain for what is not known yet and keeps it. */
  async fetch(plan: Plan, terrain: GroundSource, signal: AbortSignal): Promise<void> {
    const places = missing(
      plan.points.map((point) => point.position),
      placeKey,
      this.#points,
    );
    const routes = missing(
      plan.routes.map((route) => route.vertices),
      lineKey,
      this.#lines,
    );
    const [points, lines] = await Promise.all([
      places.length === 0
        ? []
        : terrain.groundAt(
            places.map(([, place]) => place),
            signal,
          ),
      Promise.all(routes.map(([, line]) => terrain.groundAlong(line, signal))),
    ]);
    if (signal.aborted) return;
    keep(
      this.#points,
      places.map(([key]) => key),
      points,
      plan.points.length,
    );
    keep(
      this.#lines,
      routes.map(([key]) => key),
      lines,
      plan.routes.length,
    );
  }
}

/** Those of the geometries that are not kept yet, each once, with their keys; kept ones become the newest. */
function missing<T, G>(all: readonly T[], keyOf: (one: T) => string, kept: Map<string, G>): [string, T][] {
  const wanted = new Map(all.map((one) => [keyOf(one), one]));
  for (const key of wanted.keys()) {
    const value = kept.get(key);
    if (value === undefined) continue;
    kept.delete(key);
    kept.set(key, value);
  }
  return [...wanted].filter(([key]) => !kept.has(key));
}

/** Adds entries and lets go of the oldest, never of more than the plan at hand leaves room for. */
function keep<T>(into: Map<string, T>, keys: readonly string[], values: readonly T[], inUse: number): void {
  keys.forEach((key, index) => {
    const value = values[index];
    if (value !== undefined) into.set(key, value);
  });
  const most = MOST_KEPT + 2 * inUse;
  for (const key of into.keys()) {
    if (into.size <= most) return;
    into.delete(key);
  }
}

function placeKey(position: Position): string {
  return `${position.lon},${position.lat}`;
}

function lineKey(vertices: readonly Position[]): string {
  return vertices.map(placeKey).join(' ');
}
