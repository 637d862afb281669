import type { Ground } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Plan, PlanRoute } from '../../src/plan/model/plan.ts';
import type { GroundLine, HeightAccuracy } from '../../src/terrain/grid/ground.ts';

/** A DEM without error, so that a test sees one cause at a time. */
export const perfect: HeightAccuracy = {
  id: 'made',
  cell: 1,
  nugget: 0,
  near: 0,
  nearRange: 100,
  far: 0,
  farRange: 2000,
  placement: 0,
  quantum: 0,
  surface: 'ground',
};

/** Lidar over open ground, by the constants of the class table. */
export const lidar: HeightAccuracy = {
  ...perfect,
  id: 'lidar-1m-open',
  nugget: 0.04,
  near: 0.06,
  far: 0.07,
  placement: 0.5,
};

/** A coarse global model. */
export const coarse: HeightAccuracy = {
  ...perfect,
  id: 'global-30m',
  cell: 30,
  nugget: 0.7,
  near: 0.5,
  nearRange: 300,
  far: 2.27,
  farRange: 20000,
  placement: 15,
};

/** A route's ground as a function of the share of its length, `length` m long; null makes a void. */
export function madeLine(
  route: PlanRoute,
  length: number,
  heightAt: (share: number) => number | null,
  samples = 201,
): GroundLine {
  const share = (i: number) => i / (samples - 1);
  const first = route.vertices[0] ?? { lon: 0, lat: 0 };
  const last = route.vertices.at(-1) ?? first;
  const heights = Array.from({ length: samples }, (_, i) => heightAt(share(i)));
  const at = Float64Array.from(heights, (_, i) => length * share(i));
  const ground = Float64Array.from(heights, (z) => z ?? 0);
  let slope = 0;
  for (let i = 1; i < samples; i++)
    slope += Math.hypot((at[i] ?? 0) - (at[i - 1] ?? 0), (ground[i] ?? 0) - (ground[i - 1] ?? 0));
  const known = Uint8Array.from(heights, (z) => (z === null ? 0 : 1));
  const start = heights.indexOf(null);
  return {
    at,
    lon: Float64Array.from(heights, (_, i) => first.lon + (last.lon - first.lon) * share(i)),
    lat: Float64Array.from(heights, (_, i) => first.lat + (last.lat - first.lat) * share(i)),
    ground,
    known,
    vertices: Uint32Array.of(0, samples - 1),
    voids: start < 0 ? [] : [{ first: start, last: heights.lastIndexOf(null) }],
    horizontal: length,
    slope,
    doubt: { slope: new Float32Array(samples), smoothing: new Float32Array(samples) },
  };
}

/** Ground of a plan from the heights at its points: every route runs straight from end to end unless `lines` says more. */
export function madeGround(
  plan: Plan,
  made: {
    readonly heights: Readonly<Record<string, number | null>>;
    readonly lengths: Readonly<Record<string, number>>;
    readonly files?: Readonly<Record<string, string>>;
    readonly accuracy?: HeightAccuracy;
    readonly bumps?: Readonly<Record<string, (share: number) => number | null>>;
  },
): Ground {
  const fileOf = (id: string) => (made.files?.[id] === undefined ? {} : { file: made.files[id] });
  const height = (id: string) => made.heights[id] ?? null;
  return {
    accuracy: made.accuracy ?? perfect,
    points: new Map(
      plan.points.map((p) => [p.id, { ground: height(p.id), slope: 0.1, smoothing: 0, ...fileOf(p.id) }]),
    ),
    lines: new Map(
      plan.routes.map((r) => {
        const [a, b] = [height(r.from) ?? 0, height(r.to) ?? 0];
        const straight = (share: number) => a + (b - a) * share;
        return [r.id, madeLine(r, made.lengths[r.id] ?? 100, made.bumps?.[r.id] ?? straight)];
      }),
    ),
  };
}
