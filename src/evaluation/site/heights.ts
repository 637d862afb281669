import type { Measurement, Plan, PointId } from '../../plan/model/plan.ts';
import { accuracyOfClass } from '../../terrain/accuracy/height-accuracy.ts';
import { heightCovariance, type PlaceOnSlope } from '../../terrain/accuracy/height-covariance.ts';
import type { GroundPoint, HeightAccuracy, TerrainAbout } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { Z975 } from '../statistics/normal.ts';

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

/** One error of its own, such as that of a measured level; nodes that share it are wrong together. */
interface OwnError {
  readonly name: string;
  readonly variance: number;
}

/**
 * A place whose ground height the evaluation uses. Its error is the DEM's at `dem` (none when the height was measured from
 * a benchmark) plus the errors of the level readings that led to it.
 */
export interface HeightNode {
  readonly ground: Metres;
  readonly dem: PlaceOnSlope | null;
  readonly errors: readonly OwnError[];
}

/** Ground of the plan's points as used, and where it comes from. */
export interface PointHeights {
  node(id: PointId): HeightNode | null;
  from(id: PointId): 'dem' | 'measured';
  /** File that the DEM ground used at a point comes from; null where it was measured or there is only one file. */
  file(id: PointId): string | null;
  /** How far the DEM's cells lift or lower the ground used at a point: that of the place it was levelled from, 0 from a benchmark. */
  smoothing(id: PointId): Metres;
  /** Measured minus DEM ground at a point; 0 where either is missing. */
  correction(id: PointId): Metres;
}

const targetOf = (m: Measurement): PointId => (m.kind === 'height' ? m.point : m.to);

const readingError = (m: Measurement): OwnError => ({
  name: `level of ${targetOf(m)}`,
  variance: (m.plusMinus / Z975) ** 2,
});

/** Ground of every point: a measured level where there is one, else the DEM's. A chain of level differences is followed to its start. */
export function pointHeights(plan: Plan, dem: ReadonlyMap<PointId, GroundPoint>): PointHeights {
  const positions = new Map(plan.points.map((p) => [p.id, p.position]));
  const measured = new Map(plan.measurements.map((m) => [targetOf(m), m]));
  const nodes = new Map<PointId, HeightNode | null>();

  function fromDem(id: PointId): HeightNode | null {
    const position = positions.get(id);
    const ground = dem.get(id);
    if (position === undefined || ground === undefined || ground.ground === null) return null;
    const { slope, smoothing, averagingSpread, accuracy } = ground;
    const place = {
      position,
      slope,
      smoothing,
      ...(averagingSpread !== undefined && { averagingSpread }),
      ...(accuracy && { accuracy }),
    };
    return { ground: ground.ground, dem: place, errors: [] };
  }

  function resolve(id: PointId, seen: readonly PointId[]): HeightNode | null {
    const known = nodes.get(id);
    if (known !== undefined) return known;
    const reading = measured.get(id);
    let node: HeightNode | null;
    if (reading === undefined || seen.includes(id)) node = fromDem(id);
    else if (reading.kind === 'height') node = { ground: reading.height, dem: null, errors: [readingError(reading)] };
    else {
      const start = resolve(reading.from, [...seen, id]);
      node = start && {
        ground: start.ground + reading.rise,
        dem: start.dem,
        errors: [...start.errors, readingError(reading)],
      };
    }
    nodes.set(id, node);
    return node;
  }

  return {
    node: (id) => resolve(id, []),
    from: (id) => (measured.has(id) ? 'measured' : 'dem'),
    file: (id) => (measured.has(id) ? null : (dem.get(id)?.file ?? null)),
    smoothing: (id) => resolve(id, [])?.dem?.smoothing ?? 0,
    correction(id) {
      const used = resolve(id, []);
      const raw = fromDem(id);
      return used && raw ? used.ground - raw.ground : 0;
    },
  };
}

/** Covariance of the nodes' height errors, m², row by row: that of the DEM where they rest on it, plus shared level readings. */
export function nodeCovariance(nodes: readonly HeightNode[], accuracy: HeightAccuracy): Float64Array {
  const n = nodes.length;
  const onDem = nodes.flatMap((node, i) => (node.dem ? [{ i, ...node.dem }] : []));
  const dem = heightCovariance(accuracy, onDem);
  const all = new Float64Array(n * n);
  onDem.forEach((a, r) => {
    onDem.forEach((b, c) => {
      all[a.i * n + b.i] = valueAt(dem, r * onDem.length + c);
    });
  });
  nodes.forEach((a, i) => {
    nodes.forEach((b, j) => {
      const shared = a.errors.filter((e) => b.errors.some((other) => other.name === e.name));
      const k = i * n + j;
      all[k] = valueAt(all, k) + shared.reduce((s, e) => s + e.variance, 0);
    });
  });
  return all;
}
