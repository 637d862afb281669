import type { Metres } from '../../units/quantity.ts';
import { type FieldPlace, type HeightField, levelDistance } from './height-field.ts';
import { walkBetween } from './leg.ts';
import type { WayPlace } from './pull-straight.ts';
import type { Carried, RouteRule } from './route-rule.ts';

/** Stations along a way at which it may bend. */
const MOST_STATIONS = 32;
/** Places of a station: on the way and so many cells to either side. */
const ASIDE = [0, 1, -1, 3, -3, 8, -8];

/** Rounding of what a way carries. */
const SAME = 1e-9;

/** A place where a way may bend, and the best way there so far. */
interface Bend {
  readonly place: FieldPlace;
  readonly station: number;
  /** The most that `second` may be there. */
  most: number;
  /** Cost with the bends so far. */
  total: number;
  reached: WayPlace | null;
  before: Bend | null;
}

/** A stretch of a way: as the search found it and as it was drawn straight, from the same place to the same place. */
export interface Stretch {
  readonly raw: readonly WayPlace[];
  readonly pulled: readonly WayPlace[];
  /** What the way to its start carries there. */
  readonly start: Carried;
}

/**
 * The way near a stretch whose cost is least when each bend costs so many metres of line; as it was drawn where none is better.
 *
 * Straight legs between stations, best first to each in their order (R. Bellman, 1957, from memory). A leg that the rule forbids
 * is not taken, and no way that serves the rest worse, so what comes out keeps the rule.
 */
export function fewerBends(
  field: HeightField,
  { raw, pulled, start }: Stretch,
  rule: RouteRule,
  bend: Metres,
): readonly WayPlace[] {
  const bends = bendsAlong(raw, pulled);
  const first = bends[0];
  const last = bends.at(-1);
  const goal = pulled.at(-1);
  if (!first || !last || !goal || pulled.length <= 2) return pulled;
  first.total = 0;
  first.reached = { place: first.place, carried: start };
  last.total = goal.carried.first - first.reached.carried.first + bend * (pulled.length - 1);
  last.most = goal.carried.second + SAME;
  for (const from of bends) if (from.reached) reachOn(field, bends, from, rule, bend);
  return last.before ? wayTo(last) : pulled;
}

function reachOn(field: HeightField, bends: readonly Bend[], from: Bend, rule: RouteRule, bend: Metres): void {
  const goal = bends.at(-1);
  if (!from.reached || !goal || from.total + distance(field, from.place, goal.place) >= goal.total) return;
  for (const to of bends) {
    if (to.station <= from.station) continue;
    if (from.total + bend + distance(field, from.place, to.place) >= to.total) continue;
    const carried = { ...from.reached.carried };
    if (!walkBetween(field, { from: from.place, to: to.place }, rule, carried)) continue;
    const total = from.total + bend + carried.first - from.reached.carried.first;
    if (total >= to.total || carried.second > to.most) continue;
    to.total = total;
    to.reached = { place: to.place, carried };
    to.before = from;
  }
}

const distance = (field: HeightField, from: FieldPlace, to: FieldPlace): Metres =>
  levelDistance(field, to.column - from.column, to.row - from.row);

function wayTo(last: Bend): WayPlace[] {
  const way: WayPlace[] = [];
  for (let at: Bend | null = last; at?.reached; at = at.before) way.push(at.reached);
  return way.reverse();
}

/** Places at stations along the way, in order: its start, those between with places beside them, its end. */
function bendsAlong(raw: readonly WayPlace[], pulled: readonly WayPlace[]): Bend[] {
  const vertices = new Set(pulled.map(({ place }) => place));
  const every = Math.max(1, Math.ceil((raw.length - 1) / MOST_STATIONS));
  const kept = raw.filter(({ place }, k) => k % every === 0 || k === raw.length - 1 || vertices.has(place));
  return kept.flatMap(({ place }, station) => {
    const before = kept[station - 1]?.place;
    const after = kept[station + 1]?.place;
    const places = before && after ? beside(place, before, after) : [place];
    return places.map(
      (p): Bend => ({
        place: p,
        station,
        most: Number.POSITIVE_INFINITY,
        total: Number.POSITIVE_INFINITY,
        reached: null,
        before: null,
      }),
    );
  });
}

function beside(place: FieldPlace, before: FieldPlace, after: FieldPlace): FieldPlace[] {
  const columns = after.column - before.column;
  const rows = after.row - before.row;
  const length = Math.hypot(columns, rows) || 1;
  return ASIDE.map((cells) => ({
    column: place.column - (cells * rows) / length,
    row: place.row + (cells * columns) / length,
  }));
}
