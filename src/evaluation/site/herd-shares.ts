import type { PlanRoute, PointId, RouteId } from '../../plan/model/plan.ts';
import type { Ratio } from '../../units/quantity.ts';
import type { Arrangement, Destination } from './arrangement.ts';

/** Who waters how much of the herd, as shares of what the herd drinks a day. */
export interface HerdShares {
  /** What the pump must bring to a destination: everything that drinks from what stands together with it. */
  brought(destination: PointId): Ratio;
  /** What is drunk from a destination itself: out of a tank by way of its troughs, or at a trough that the pump fills. */
  drunkFrom(destination: PointId): Ratio;
  /** What is drunk at a trough that a gravity line feeds. */
  drunkAt(trough: PointId): Ratio;
  /** What a gravity line from the source brings in the mean of a day. */
  drawn(route: RouteId): Ratio;
}

/** Where animals drink: a trough, or a tank that has none yet. */
interface Place {
  readonly id: PointId;
  /** The gravity line to it; null where the pump fills it. */
  readonly line: RouteId | null;
  /** The tank or source that feeds it, or the place itself. */
  readonly from: PointId;
  /** Share of the herd that the plan says drinks here; null for an equal one. */
  readonly said: Ratio | null;
}

interface Share extends Place {
  readonly share: Ratio;
}

/**
 * Shares of the places that stand together: those the plan gives, and of what is left an equal one for each of the rest.
 * Given ones may add up to more than the herd, where it drinks now here, now there.
 */
function shared(places: readonly Place[]): Share[] {
  const said = places.reduce((sum, p) => sum + (p.said ?? 0), 0);
  const rest = places.filter((p) => p.said === null).length;
  const equal = Math.max(0, 1 - said) / Math.max(1, rest);
  return places.map((place) => ({ ...place, share: place.said ?? equal }));
}

/** No more than the whole herd. */
const together = (shares: readonly Share[]): Ratio =>
  Math.min(
    1,
    shares.reduce((sum, s) => sum + s.share, 0),
  );

function placesOf(arrangement: Arrangement, { point }: Destination): Place[] {
  const { id } = point;
  if (point.role === 'trough') return [{ id, line: null, from: id, said: point.herdShare }];
  const fed = fedFrom(arrangement, id);
  return fed.length > 0 ? fed : [{ id, line: null, from: id, said: null }];
}

function fedFrom({ gravity }: Arrangement, from: PointId): Place[] {
  return gravity
    .filter((g) => g.from.id === from)
    .map(({ trough, route }) => ({ id: trough.id, line: route.id, from, said: trough.herdShare }));
}

/**
 * What stands together: kept tanks and the troughs that the pump fills, all at once; every other tank by itself, since
 * candidates are alternatives and each is planned for the whole herd.
 */
function systemsOf({ destinations }: Arrangement): readonly (readonly Destination[])[] {
  const stands = ({ point }: Destination) => point.role === 'trough' || point.standing === 'kept';
  const alone = destinations.filter((d) => !stands(d)).map((d) => [d]);
  return [destinations.filter(stands), ...alone];
}

/**
 * How the herd is shared among the places where it drinks. Troughs of one system share it, equally unless the plan says
 * otherwise; systems are alternatives and each serves the whole herd. The lines from the source are a system of their own.
 */
export function herdShares(arrangement: Arrangement): HerdShares {
  const brought = new Map<PointId, Ratio>();
  const drunkFrom = new Map<PointId, Ratio>();
  const drunkAt = new Map<PointId, Ratio>();
  const drawn = new Map<RouteId, Ratio>();
  for (const system of systemsOf(arrangement)) {
    const shares = shared(system.flatMap((d) => placesOf(arrangement, d)));
    for (const { point } of system) {
      brought.set(point.id, together(shares));
      drunkFrom.set(point.id, together(shares.filter((s) => s.from === point.id)));
    }
    for (const { id, share } of shares) drunkAt.set(id, share);
  }
  const fromSource = shared(arrangement.source ? fedFrom(arrangement, arrangement.source.id) : []);
  const sum = fromSource.reduce((total, s) => total + s.share, 0);
  for (const { id, line, share } of fromSource) {
    drunkAt.set(id, share);
    if (line !== null) drawn.set(line, sum > 0 ? (share / sum) * together(fromSource) : 0);
  }
  const of = (shares: ReadonlyMap<string, Ratio>) => (id: string) => shares.get(id) ?? 0;
  return { brought: of(brought), drunkFrom: of(drunkFrom), drunkAt: of(drunkAt), drawn: of(drawn) };
}

/** A share as a finding carries it: left out where it is the whole herd. */
export const shareFact = (share: Ratio): Readonly<Record<string, number>> => (share < 1 ? { share } : {});

/**
 * Which of the lines from the source to troughs a route is, from 0; null for every other. What each of these takes is missed
 * by everything behind the pump, so that the nodes of no two of them may move together.
 */
export function drawingIndex({ arrangement }: { readonly arrangement: Arrangement }, route: PlanRoute): number | null {
  const drawing = arrangement.gravity.filter((g) => g.from.role === 'source');
  const index = drawing.findIndex((g) => g.route.id === route.id);
  return index < 0 ? null : index;
}
