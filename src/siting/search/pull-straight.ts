import type { FieldPlace, HeightField } from './height-field.ts';
import { legBetween, walkBetween } from './leg.ts';
import type { Carried, RouteRule } from './route-rule.ts';

/** A place of a way with what the way carries there. */
export interface WayPlace {
  readonly place: FieldPlace;
  readonly carried: Carried;
}

/** A straight leg may cost so much more than the stairs it replaces: bumps between cells that the search did not see. */
const COST_TOLERANCE = 1e-3;

/**
 * Draws a way straight wherever the rule allows a straight leg that costs no more, so that few vertices are left.
 *
 * From each vertex the farthest place that can be reached so is looked for by doubling and halving.
 */
export function pullStraight(field: HeightField, way: readonly WayPlace[], rule: RouteRule): WayPlace[] {
  const most = mostSecond(field, way, rule);
  const first = way[0];
  if (!first) return [];
  const pulled: WayPlace[] = [first];
  let from = first;
  for (let at = 0; at < way.length - 1; ) {
    const reached = farthest(at, way.length - 1, (to) => straightTo(field, rule, { from, at, to, way, most }));
    at = reached?.to ?? at + 1;
    from = { place: placeAt(way, at).place, carried: reached?.carried ?? placeAt(way, at).carried };
    pulled.push(from);
  }
  return pulled;
}

function placeAt(way: readonly WayPlace[], at: number): WayPlace {
  const place = way[at];
  if (!place) throw new Error(`place of a way: found ${at}, expected one below ${way.length}`);
  return place;
}

interface Reached {
  readonly to: number;
  readonly carried: Carried;
}

/** The farthest of the tried places that can be reached; null when none can. */
function farthest(at: number, last: number, reach: (to: number) => Carried | null): Reached | null {
  let best: Reached | null = null;
  let beyond = last + 1;
  for (let far = 2; at + far / 2 < last; far *= 2) {
    const to = Math.min(last, at + far);
    const carried = reach(to);
    if (carried) best = { to, carried };
    else {
      beyond = to;
      break;
    }
  }
  let low = best?.to ?? at + 1;
  while (beyond - low > 1) {
    const to = (low + beyond) >> 1;
    const carried = reach(to);
    if (carried) {
      best = { to, carried };
      low = to;
    } else beyond = to;
  }
  return best;
}

interface Attempt {
  readonly from: WayPlace;
  readonly at: number;
  readonly to: number;
  readonly way: readonly WayPlace[];
  readonly most: Float64Array;
}

/** What a straight leg carries to a place of the way; null where the rule forbids it or it serves the rest worse. */
function straightTo(field: HeightField, rule: RouteRule, { from, at, to, way, most }: Attempt): Carried | null {
  const target = placeAt(way, to);
  const carried = { ...from.carried };
  if (!walkBetween(field, { from: from.place, to: target.place }, rule, carried)) return null;
  const replaced = target.carried.first - placeAt(way, at).carried.first;
  if (carried.first - from.carried.first > replaced * (1 + COST_TOLERANCE)) return null;
  return carried.second <= Math.max(target.carried.second, most[to] as number) ? carried : null;
}

/** At each place of a way, the most that `second` may be if the rest of the way is to stay possible. */
function mostSecond(field: HeightField, way: readonly WayPlace[], rule: RouteRule): Float64Array {
  const most = new Float64Array(way.length);
  const last = way.length - 1;
  most[last] = rule.atEnd(placeAt(way, last).carried);
  for (let k = last; k > 0; k--) {
    const leg = legBetween(field, placeAt(way, k - 1).place, placeAt(way, k).place);
    let second = most[k] as number;
    for (let i = leg ? leg.ground.length - 1 : 0; leg && i > 0; i--) {
      second = rule.before(second, { run: leg.step, from: leg.ground[i - 1] as number, to: leg.ground[i] as number });
    }
    most[k - 1] = second;
  }
  return most;
}
