import type { Position } from '../geodesy/position.ts';
import type { Metres } from '../units/quantity.ts';
import { blockedRule } from './blocked-rule.ts';
import { type FallingTerms, fallingRule } from './falling-rule.ts';
import type { Leg } from './leg.ts';
import type { WayPlace } from './pull-straight.ts';
import type { ProposedRoute, RouteJob, RouteProposal } from './route-proposal.ts';
import { drawnRoute, endHeights, legsOf, type RouteSite } from './route-site.ts';
import { runSearch } from './run-search.ts';

/** Proposes the shortest line that falls all the way, or says where and by how much the ground stands too high. */
export async function proposeFalling(site: RouteSite, job: RouteJob): Promise<RouteProposal> {
  const terms: FallingTerms = { ...site.request.settings, ...endHeights(site) };
  const search = { field: site.field, ends: site.ends, neighbours: 32 } as const;
  const found = await runSearch(search, fallingRule(terms), job);
  if (found.state === 'full') return { kind: 'too-wide', ground: site.ground };
  if (found.state === 'found') {
    return { kind: 'route', ...fallingRoute(site, found.way, terms), other: null, ground: site.ground };
  }
  const least = await runSearch(search, blockedRule(terms), job);
  if (least.state === 'full') return { kind: 'too-wide', ground: site.ground };
  if (least.state === 'none') return { kind: 'cut-off', ground: site.ground };
  return { kind: 'blocked', ...blockedAt(site, least.raw), ground: site.ground };
}

function fallingRoute(site: RouteSite, way: readonly WayPlace[], terms: FallingTerms): ProposedRoute {
  return { ...drawnRoute(site, way), governingLift: null, cut: cutOf(legsOf(site.field, way), terms) };
}

/** How far a falling line lies below and above the ground when it lies as high as it may. */
export function cutOf(
  legs: readonly Leg[],
  { from, leastFall, highest }: FallingTerms,
): { below: Metres; above: Metres } {
  let pipe = from;
  const cut = { below: 0, above: 0 };
  for (const { step, ground } of legs) {
    for (let k = 1; k < ground.length; k++) {
      const height = ground[k] as number;
      pipe = Math.min(pipe - leastFall * step, height + highest);
      cut.below = Math.max(cut.below, height - pipe);
      cut.above = Math.max(cut.above, pipe - height);
    }
  }
  return cut;
}

/** The place of the way that lacks least at which it lacks most, and how much. */
function blockedAt(site: RouteSite, way: readonly WayPlace[]): { at: Position; excess: Metres } {
  const excess = way.at(-1)?.carried.first ?? 0;
  const worst = way.find(({ carried }) => carried.first >= excess);
  const isEnd = worst === way.at(-1);
  const at = worst && !isEnd ? site.positionAt(worst.place) : null;
  return { at: at ?? site.request.to.position, excess };
}
