import type { Position } from '../../geodesy/position.ts';
import type { Metres } from '../../units/quantity.ts';
import { placeInFiner } from '../search/coarser-field.ts';
import { drawWay, wayThrough } from '../search/draw-way.ts';
import { type FallingTerms, fallingRule } from '../search/falling-rule.ts';
import type { FieldPlace } from '../search/height-field.ts';
import { type Leg, walkBetween } from '../search/leg.ts';
import { overviewOf } from '../search/overview-search.ts';
import type { WayPlace } from '../search/pull-straight.ts';
import type { Carried, RouteRule } from '../search/route-rule.ts';
import { type RouteJob, runSearch, type SearchGround } from '../search/run-search.ts';
import type { ProposedRoute, RouteProposal } from './route-proposal.ts';
import { drawnRoute, endHeights, legsOf, type RouteSite } from './route-site.ts';

/** Up to so many cells 32 directions are tried, which find more of the lines that only just fall; beyond it 16, for speed. */
const FEW_CELLS = 500_000;

/** Proposes the shortest line that falls all the way, or says where and by how much the ground stands too high. */
export async function proposeFalling(site: RouteSite, job: RouteJob): Promise<RouteProposal> {
  const terms: FallingTerms = { ...site.request.settings, ...endHeights(site) };
  const { field, ends } = site;
  const search: SearchGround = { field, ends, neighbours: field.columns * field.rows > FEW_CELLS ? 16 : 32 };
  const found = await runSearch(search, fallingRule(terms), job);
  if (found.state === 'full') return { kind: 'too-wide', ground: site.ground };
  if (found.state === 'found') {
    return { kind: 'route', ...fallingRoute(site, found.way, terms), other: null, ground: site.ground };
  }
  const overview = overviewOf(search);
  const least = await runSearch(overview.ground, blockedRule(terms), job);
  if (least.state === 'full') return { kind: 'too-wide', ground: site.ground };
  if (least.state === 'none') return { kind: 'cut-off', ground: site.ground };
  const way = onSite(site, least.way, overview.times);
  const blocked = blockedAt(site, way, terms);
  if (blocked.excess > 0) {
    return { kind: 'blocked', ...blocked, anyway: dugRoute(site, way, terms, blocked.excess), ground: site.ground };
  }
  const missed = wayThrough(field, way, fallingRule(terms));
  return { kind: 'route', ...fallingRoute(site, missed, terms), other: null, ground: site.ground };
}

/** The best way with a trench as deep as it needs there; null where the outlet itself would lie below the ground. */
function dugRoute(
  site: RouteSite,
  way: readonly FieldPlace[],
  terms: FallingTerms,
  excess: Metres,
): ProposedRoute | null {
  const deeper = { ...terms, deepest: terms.deepest + excess };
  const end = terms.from - terms.leastFall * horizontalOf(site, way);
  // Water that arrives below the ground of its end is of no use there.
  if (end < terms.to - terms.deepest) return null;
  return fallingRoute(site, wayThrough(site.field, way, fallingRule(deeper)), deeper);
}

function horizontalOf({ field }: RouteSite, way: readonly FieldPlace[]): Metres {
  const legs = legsOf(
    field,
    way.map((place) => ({ place, carried: { first: 0, second: 0 } })),
  );
  return legs.reduce((sum, { step, ground }) => sum + step * (ground.length - 1), 0);
}

function fallingRoute(site: RouteSite, raw: readonly WayPlace[], terms: FallingTerms): ProposedRoute {
  const way = drawWay(site.field, raw, fallingRule(terms), site.request.settings.bendAsLine);
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

/** The place of a way at which it lacks most, and how much, on the heights of the site. */
function blockedAt(
  site: RouteSite,
  places: readonly FieldPlace[],
  terms: FallingTerms,
): { at: Position; excess: Metres } {
  const rule = blockedRule(terms);
  const carried = rule.start();
  let worst = places.at(-1);
  for (const [k, place] of places.entries()) {
    const before = places[k - 1];
    const excess = carried.first;
    if (before) walkBetween(site.field, { from: before, to: place }, rule, carried);
    if (carried.first > excess) worst = place;
  }
  const at = worst && worst !== places.at(-1) ? site.positionAt(worst) : null;
  return { at: at ?? site.request.to.position, excess: carried.first };
}

/** Places of a way through means of cells, on the site's own field, between the site's own ends. */
function onSite(site: RouteSite, way: readonly WayPlace[], times: number): FieldPlace[] {
  const between = way.slice(1, -1).map(({ place }) => placeInFiner(place, site.field, times));
  return [site.ends.from, ...between, site.ends.to];
}

/**
 * The way on which a falling line lacks least: how much deeper than allowed it must go at its worst place.
 *
 * e = max over the way of z − d − p; p = min(p − s r, z + c) as in the falling rule, whatever its depth. First is e, second the
 * pipe's height below nought. Source: derived; a way of least bottleneck.
 */
function blockedRule({ leastFall, deepest, highest, from, to, slack }: FallingTerms): RouteRule {
  return {
    start: () => ({ first: 0, second: -from }),
    walk(carried: Carried, step) {
      const pipe = Math.min(-carried.second - leastFall * step.run, step.to + highest);
      carried.first = Math.max(carried.first, step.to - deepest - pipe);
      carried.second = -pipe;
      return true;
    },
    bound: (carried, left) => Math.max(carried.first, to - deepest - (-carried.second - leastFall * left.run)),
    firstPerMetre: 0,
    slack,
    before: (after) => after,
    atEnd: () => Number.POSITIVE_INFINITY,
  };
}
