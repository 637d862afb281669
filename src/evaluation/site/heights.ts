import type { Position } from '../../geodesy/position.ts';
import { measuredPoint } from '../../plan/check/check-measurements.ts';
import type { Plan, PointId } from '../../plan/model/plan.ts';
import { accuracyOfClass } from '../../terrain/accuracy/height-accuracy.ts';
import type { PlaceOnSlope } from '../../terrain/accuracy/height-covariance.ts';
import type { GroundPoint, HeightAccuracy, TerrainAbout } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';
import { counted, type HeightNode, heightNets, type ReadingCheck } from './height-net.ts';

/** Name of a spread whose constants the user typed in. */
export const OWN_CONSTANTS = 'own-constants';

/** How far the heights are trusted: constants typed in, else the class the plan names, else what was inferred from the file. */
export function accuracyFor(plan: Plan, about: TerrainAbout): HeightAccuracy {
  const { cell, quantum = 0 } = about.accuracy;
  const chosen = plan.terrain?.accuracy ?? null;
  const byClass = (chosen === null ? null : accuracyOfClass(chosen, { cell, quantum })) ?? about.accuracy;
  const constants = plan.terrain?.constants ?? null;
  return constants === null ? byClass : { ...byClass, ...constants, id: OWN_CONSTANTS };
}

/** Ground of the plan's points as used, and where it comes from. */
export interface PointHeights {
  node(id: PointId): HeightNode | null;
  from(id: PointId): 'dem' | 'measured';
  /** File that the DEM ground used at a point comes from; null where it was measured or there is only one file. */
  file(id: PointId): string | null;
  /** How far the DEM's cells lift or lower the ground used at a point: what levels leave of it. */
  smoothing(id: PointId): Metres;
  /** Ground as used minus DEM ground at a point; 0 where either is missing. */
  correction(id: PointId): Metres;
  /** Covariance of the height errors of some nodes with every level reading weighed, m², row by row. */
  covariance(nodes: readonly HeightNode[]): Float64Array;
  /** Every level reading that counts against what the DEM and the other readings say of it. */
  checks(): readonly ReadingCheck[];
}

/** The place of a point's DEM height. */
function placeOf(position: Position, ground: GroundPoint): PlaceOnSlope {
  const { slope, smoothing, averagingSpread, accuracy } = ground;
  return {
    position,
    slope,
    smoothing,
    ...(averagingSpread !== undefined && { averagingSpread }),
    ...(accuracy && { accuracy }),
  };
}

/**
 * Ground of every point: what the DEM says and the levels taken on site, each by its weight. A level moves the points beside it
 * too, as far as their DEM errors go together.
 */
export function pointHeights(
  plan: Plan,
  dem: ReadonlyMap<PointId, GroundPoint>,
  accuracy: HeightAccuracy,
): PointHeights {
  const raw = new Map(
    plan.points.flatMap(({ id, position }) => {
      const ground = dem.get(id);
      if (ground === undefined || ground.ground === null) return [];
      return [[id, { ground: ground.ground, dem: placeOf(position, ground) }] as const];
    }),
  );
  const readings = plan.measurements.filter(counted);
  const measured = new Set(readings.map(measuredPoint));
  const { net, strict } = heightNets(raw, plan.measurements, accuracy);
  const used = new Map(
    plan.points.flatMap(({ id }) => {
      const height = net.height(id);
      return height === null ? [] : [[id, { ground: height, dem: raw.get(id)?.dem ?? null, point: id }] as const];
    }),
  );
  return {
    node: (id) => used.get(id) ?? null,
    from: (id) => (measured.has(id) ? 'measured' : 'dem'),
    file: (id) => (measured.has(id) ? null : (dem.get(id)?.file ?? null)),
    smoothing: (id) => net.left(id, (place) => place.smoothing ?? 0),
    correction(id) {
      const [now, before] = [used.get(id), raw.get(id)];
      return now && before ? now.ground - before.ground : 0;
    },
    covariance: (nodes) => net.covariance(nodes),
    checks: () => strict.checks(),
  };
}
