import type { Metres } from '../units/quantity.ts';
import { type LiftingTerms, liftingRule } from './lifting-rule.ts';
import type { WayPlace } from './pull-straight.ts';
import type { ProposedRoute, RouteJob, RouteProposal } from './route-proposal.ts';
import { drawnRoute, endHeights, type RouteSite } from './route-site.ts';
import { runSearch } from './run-search.ts';
import { shortestRule } from './shortest-rule.ts';

/**
 * Proposes the delivery line that brings water cheapest and, where it differs in kind, the shortest one beside it: over the
 * knoll, or round it.
 */
export async function proposeDelivery(site: RouteSite, job: RouteJob): Promise<RouteProposal> {
  const terms = liftingTerms(site);
  const search = { field: site.field, ends: site.ends, neighbours: 16 } as const;
  const best = await runSearch(search, liftingRule(terms), job);
  if (best.state === 'full') return { kind: 'too-wide', ground: site.ground };
  if (best.state === 'none') return { kind: 'cut-off', ground: site.ground };
  const route = deliveryRoute(site, best.way, terms);
  const shortest = await runSearch(search, shortestRule(terms), job);
  const other = shortest.state === 'found' ? deliveryRoute(site, shortest.way, terms) : null;
  const shown = other && differInKind(route, other, site.request.settings.worthShowing) ? other : null;
  return { kind: 'route', ...route, other: shown, ground: site.ground };
}

function liftingTerms(site: RouteSite): LiftingTerms {
  const { from, to } = endHeights(site);
  const { request } = site;
  return { ...request.settings, pump: from + request.from.height, outlet: to + request.to.height };
}

function deliveryRoute(site: RouteSite, way: readonly WayPlace[], { pump, outlet }: LiftingTerms): ProposedRoute {
  const drawn = drawnRoute(site, way);
  return { ...drawn, governingLift: Math.max(drawn.highest, outlet) - pump, cut: null };
}

const liftOf = ({ governingLift }: ProposedRoute): Metres => governingLift ?? 0;

function differInKind(route: ProposedRoute, other: ProposedRoute, worthShowing: number): boolean {
  const saved = Math.abs(liftOf(other) - liftOf(route));
  return saved > worthShowing * Math.max(liftOf(route), liftOf(other));
}
