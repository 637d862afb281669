import { polylineLength } from '../../geodesy/polyline-length.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';
import { type FieldPlace, type HeightField, heightAt } from '../search/height-field.ts';
import { type Leg, legBetween } from '../search/leg.ts';
import type { WayPlace } from '../search/pull-straight.ts';
import type { RouteEnds } from '../search/route-search.ts';
import type { ProposalGround, ProposedRoute, RouteRequest } from './route-proposal.ts';

/** A request with the ground it is to be answered on. */
export interface RouteSite {
  readonly request: RouteRequest;
  readonly field: HeightField;
  readonly ends: RouteEnds;
  readonly ground: ProposalGround;
  positionAt(place: FieldPlace): Position | null;
}

/** Ground at the two ends. */
export function endHeights({ field, ends }: RouteSite): { readonly from: Metres; readonly to: Metres } {
  return { from: heightAt(field, ends.from.column, ends.from.row), to: heightAt(field, ends.to.column, ends.to.row) };
}

/** The legs of a way. */
export function legsOf(field: HeightField, way: readonly WayPlace[]): Leg[] {
  return way.flatMap(({ place }, k) => {
    const before = way[k - 1];
    const leg = before && legBetween(field, before.place, place);
    return leg ? [leg] : [];
  });
}

/** What is the same for a way of any role: its vertices, with the ends as they were given, its lengths and highest ground. */
export function drawnRoute(site: RouteSite, way: readonly WayPlace[]): Omit<ProposedRoute, 'governingLift' | 'cut'> {
  const { from, to } = site.request;
  const between = way.slice(1, -1).flatMap(({ place }) => site.positionAt(place) ?? []);
  const vertices = [from.position, ...between, to.position];
  let length = 0;
  let highest = Number.NEGATIVE_INFINITY;
  for (const { step, ground } of legsOf(site.field, way)) {
    for (let k = 0; k < ground.length; k++) {
      const height = ground[k] as number;
      highest = Math.max(highest, height);
      if (k > 0) length += Math.hypot(step, height - (ground[k - 1] as number));
    }
  }
  return { vertices, length, horizontal: polylineLength(vertices), highest };
}
