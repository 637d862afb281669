import type { Plan, PlanPoint, PointId, RouteId } from '../../plan/model/plan.ts';
import { AVERAGING_CELL, averagingError, type Landform, roughSlope } from '../../terrain/accuracy/averaging.ts';
import { NUGGET_RANGE_IN_CELLS } from '../../terrain/accuracy/height-variogram.ts';
import type { GroundLine, GroundPoint, HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';

interface PlacedGround {
  readonly points: ReadonlyMap<PointId, GroundPoint>;
  readonly lines: ReadonlyMap<RouteId, GroundLine>;
}

/** What a point's role says of where it was put: water is taken and driven at the bottom of the ground, stored on top of it. */
const LANDFORMS: Readonly<Partial<Record<PlanPoint['role'], Landform>>> = { source: 'low', pump: 'low', tank: 'high' };

/**
 * The ground as it likely is, where the DEM's cells are so large that they flatten it: what averaging likely does to a point's
 * height is taken off, and what that leaves open is told. A line is moved with the points at its ends and comes back to the
 * DEM's ground within the reach of single cells. Finer cells, and a plan with constants of its own, keep the DEM's ground.
 */
export function likelyGround<G extends PlacedGround>(plan: Plan, ground: G, accuracy: HeightAccuracy): G {
  if ((plan.terrain?.constants ?? null) !== null) return ground;
  const points = new Map(ground.points);
  for (const { id, role } of plan.points) {
    const point = points.get(id);
    if (point) points.set(id, likelyPoint(point, LANDFORMS[role] ?? null, (point.accuracy ?? accuracy).cell));
  }
  const takenOff = (id: PointId): Metres => {
    const point = points.get(id);
    return point?.averagingSpread === undefined ? 0 : point.smoothing;
  };
  const lines = new Map(ground.lines);
  const reach = NUGGET_RANGE_IN_CELLS * accuracy.cell;
  for (const { id, from, to } of plan.routes) {
    const line = lines.get(id);
    if (line) lines.set(id, movedAtEnds(line, { start: takenOff(from), end: takenOff(to), reach }));
  }
  return { ...ground, points, lines };
}

function likelyPoint(point: GroundPoint, landform: Landform | null, cell: Metres): GroundPoint {
  if (point.ground === null || point.averaging === undefined || cell < AVERAGING_CELL) return point;
  const { likely, spread } = averagingError(point, cell, landform);
  return {
    ...point,
    ground: point.ground - likely,
    slope: roughSlope(point, cell),
    smoothing: likely,
    averagingSpread: spread,
  };
}

/** A line lowered at either end by what was taken off there, less and less up to the reach: 1 − 1.5 h + 0.5 h³, as single cells' error fades. */
function movedAtEnds(
  line: GroundLine,
  { start, end, reach }: { readonly start: Metres; readonly end: Metres; readonly reach: Metres },
): GroundLine {
  if (start === 0 && end === 0) return line;
  const length = line.at.at(-1) ?? 0;
  const share = (distance: Metres): number => {
    const h = distance / reach;
    return h >= 1 ? 0 : 1 - 1.5 * h + 0.5 * h ** 3;
  };
  const ground = line.ground.map((height, i) => {
    const at = line.at[i] ?? 0;
    return line.known[i] === 0 ? height : height - start * share(at) - end * share(length - at);
  });
  return { ...line, ground };
}
