import type { GradeLine } from '../../evaluation/result/evaluation.ts';
import type { RouteId } from '../../plan/model/plan.ts';
import type { GroundLine } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { ProfileLeg, ProfileView } from './profile-view.ts';

/** What the profile shows at one distance. */
export interface ProfileReading {
  readonly route: RouteId;
  readonly routeName: string;
  /** Distance along the axis of the figure and along the route itself, m. */
  readonly at: Metres;
  readonly alongRoute: Metres;
  readonly lon: number;
  readonly lat: number;
  /** Null in a void. */
  readonly ground: Metres | null;
  readonly spread: Metres | null;
  readonly running: Metres | null;
  readonly still: Metres | null;
}

/** Reads the profile at a distance along its axis; the leg that is drawn first wins where legs overlap. */
export function profileReading(view: Pick<ProfileView, 'legs'>, at: Metres): ProfileReading | null {
  const leg = legAt(view.legs, at);
  if (leg === null) return null;
  const alongRoute = Math.min(leg.ground.horizontal, Math.max(0, at - leg.offset));
  const { sample, share } = placeOn(leg.ground, alongRoute);
  const between = (values: Float64Array) =>
    mixed(valueAt(values, sample), values[sample + 1] ?? valueAt(values, sample), share);
  const known = leg.ground.known[sample] === 1 && (share === 0 || leg.ground.known[sample + 1] === 1);
  return {
    route: leg.id,
    routeName: leg.name,
    at: leg.offset + alongRoute,
    alongRoute,
    lon: between(leg.ground.lon),
    lat: between(leg.ground.lat),
    ground: known ? between(leg.ground.ground) : null,
    spread: known && leg.spread !== null ? between(leg.spread) : null,
    running: gradeAt(leg.result?.running ?? null, alongRoute),
    still: leg.result?.still ?? null,
  };
}

/** Where along the profile's axis the sample of a route nearest to a position stands; null when none of its legs is that route. */
export function profilePlaceOf(view: Pick<ProfileView, 'legs'>, route: RouteId, alongRoute: Metres): Metres | null {
  const leg = view.legs.find((candidate) => candidate.id === route);
  return leg === undefined ? null : leg.offset + Math.min(leg.ground.horizontal, Math.max(0, alongRoute));
}

function legAt(legs: readonly ProfileLeg[], at: Metres): ProfileLeg | null {
  const main = legs.filter((leg) => leg.emphasis === 'main');
  const inside = main.find((leg) => at >= leg.offset && at <= leg.offset + leg.ground.horizontal);
  if (inside !== undefined) return inside;
  const first = main[0];
  const last = main.at(-1);
  if (first === undefined || last === undefined) return null;
  return at < first.offset ? first : last;
}

/** The sample before a distance, by halving, and the share of the way to the next. */
function placeOn(ground: GroundLine, at: Metres): { sample: number; share: number } {
  let low = 0;
  let high = ground.at.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (valueAt(ground.at, middle) <= at) low = middle;
    else high = middle;
  }
  const from = valueAt(ground.at, low);
  const span = (ground.at[high] ?? from) - from;
  return { sample: low, share: span > 0 ? (at - from) / span : 0 };
}

function gradeAt(line: GradeLine | null, at: Metres): Metres | null {
  if (line === null) return null;
  const after = line.at.findIndex((corner) => corner >= at);
  if (after < 0) return line.head.at(-1) ?? null;
  const right = line.head[after];
  if (right === undefined || after === 0) return right ?? null;
  const from = valueAt(line.at, after - 1);
  const span = (line.at[after] ?? from) - from;
  return mixed(line.head[after - 1] ?? right, right, span > 0 ? (at - from) / span : 1);
}

function mixed(from: number, to: number, share: number): number {
  return from + (to - from) * share;
}
