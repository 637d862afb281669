import type { PlanRoute } from '../../plan/model/plan.ts';
import type { GroundLine, HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { type Turning, turningsOf } from './extrema.ts';
import type { PointHeights } from './heights.ts';
import { type Brow, browsOf } from './hull-corners.ts';

/**
 * How deep a pipe is let into the ground to pass a rise or dip without being dug specially: what is less is left to the
 * trench, by what judges a line and by what proposes one. Common practice, no source.
 */
export const SHALLOW_TRENCH: Metres = 0.3;

/** No trench is dug deeper by hand, and none deeper is proposed: it wants shoring. Common practice, no source. */
export const DEEPEST_TRENCH: Metres = 1.5;

/** Nobody sets anything out finer: depths are taken up to the next 5 cm. Common practice, no source. */
const DEPTH_STEP: Metres = 0.05;

/** The depth that is dug where one is needed. */
export const trenchFor = (depth: Metres): Metres => Math.ceil(depth / DEPTH_STEP - 1e-9) * DEPTH_STEP;

/** How deep a line is let in: what its owner says, else a shallow trench. */
export const trenchOf = (route: PlanRoute): Metres => route.trenchDepth ?? SHALLOW_TRENCH;

/** The ground along one route as the evaluation uses it. */
export interface LineProfile {
  readonly route: PlanRoute;
  readonly line: GroundLine;
  /** Ground, m, corrected towards measured levels at the ends; meaningless where the line is not known. */
  readonly height: Float64Array;
  readonly start: Metres | null;
  readonly end: Metres | null;
  readonly lowest: Metres | null;
  readonly highest: Metres | null;
  readonly void: Metres;
  readonly turnings: readonly Turning[];
  /** Where the water line of a full pipe can come down to the pipe first, the highest first. */
  readonly brows: readonly Brow[];
}

/** High places of one line that a run looks at. */
const MOST_HIGH_PLACES = 6;

/** How many deviations of the DEM's cell-to-cell noise a turning must stand out by. Common practice, no source. */
const NOISE_DEVIATIONS = 2;

/** Length of a line over which the DEM has no heights, from the last known sample before to the first known one after. */
function voidLength(line: GroundLine): Metres {
  const at = (i: number) => valueAt(line.at, Math.min(Math.max(i, 0), line.at.length - 1));
  return line.voids.reduce((sum, v) => sum + at(v.last + 1) - at(v.first - 1), 0);
}

/**
 * Ground heights of a route, shifted so that they meet measured levels at its ends: the difference between measured and DEM
 * ground is spread along the route in proportion to the distance from either end.
 */
function correctedHeights(line: GroundLine, ends: { readonly first: Metres; readonly last: Metres }): Float64Array {
  if (ends.first === 0 && ends.last === 0) return line.ground;
  const length = line.horizontal || 1;
  return line.ground.map((z, i) => z + ends.first + ((ends.last - ends.first) * valueAt(line.at, i)) / length);
}

function extremes(height: Float64Array, known: Uint8Array): { lowest: Metres | null; highest: Metres | null } {
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < height.length; i++) {
    if (!known[i]) continue;
    const z = valueAt(height, i);
    if (z < lowest) lowest = z;
    if (z > highest) highest = z;
  }
  return lowest <= highest ? { lowest, highest } : { lowest: null, highest: null };
}

/** What a line's ground looks like by itself: found once for a line that stays where it is. */
interface Shape {
  readonly prominence: Metres;
  readonly lowest: Metres | null;
  readonly highest: Metres | null;
  readonly turnings: readonly Turning[];
  readonly brows: readonly Brow[];
}

/** Shapes of lines whose heights need no correction; ground data never changes, so neither do they. */
const shapes = new WeakMap<GroundLine, Shape>();

function shapeOf(line: GroundLine, height: Float64Array, prominence: Metres): Shape {
  const kept = height === line.ground ? shapes.get(line) : undefined;
  if (kept?.prominence === prominence) return kept;
  const { at, known } = line;
  const turnings = turningsOf({ height, known, prominence }).map(({ kind, sample }) => ({
    kind,
    sample,
    at: valueAt(at, sample),
    ground: valueAt(height, sample),
  }));
  const summits = turnings.flatMap(({ kind, sample }) => (kind === 'summit' ? [sample] : []));
  const brows = browsOf({ at, height, known, prominence, summits, most: MOST_HIGH_PLACES });
  const shape = { prominence, turnings, brows, ...extremes(height, known) };
  if (height === line.ground) shapes.set(line, shape);
  return shape;
}

/** Profile of one route on the heights that the evaluation uses. */
export function lineProfile(
  route: PlanRoute,
  line: GroundLine,
  context: { readonly heights: PointHeights; readonly accuracy: HeightAccuracy },
): LineProfile {
  const height = correctedHeights(line, {
    first: context.heights.correction(route.from),
    last: context.heights.correction(route.to),
  });
  const last = height.length - 1;
  const known = (i: number) => (line.known[i] ? (height[i] ?? null) : null);
  const prominence = Math.max(trenchOf(route), NOISE_DEVIATIONS * context.accuracy.nugget);
  const shape = shapeOf(line, height, prominence);
  return { ...shape, route, line, height, start: known(0), end: known(last), void: voidLength(line) };
}
