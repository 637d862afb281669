import type { Metres } from '../../units/quantity.ts';
import { drawWay } from '../search/draw-way.ts';
import type { LayingCost } from '../search/laying-cost.ts';
import { overviewOf } from '../search/overview-search.ts';
import type { WayPlace } from '../search/pull-straight.ts';
import { type RouteJob, runSearch, type SearchGround } from '../search/run-search.ts';
import { type ShortestTerms, shortestRule } from '../search/shortest-rule.ts';
import { costOfWorth, type LiftTerms, worthOfLift } from '../search/worth-of-lift.ts';
import type { ProposedRoute, RouteProposal } from './route-proposal.ts';
import { drawnRoute, endHeights, type RouteSite } from './route-site.ts';

interface CeilingTerms extends LayingCost, LiftTerms {
  /** The lowest governing level there can be: the outlet's. */
  readonly floor: Metres;
  /** Highest ground on the shortest way, above which no ceiling is worth a look. */
  readonly top: Metres;
}

/** Ceilings of the first look, from the floor to the top, and of the second, around the best of the first. */
const FIRST_LOOK = 16;
const SECOND_LOOK = 6;

/** A ceiling with the worth of the best line below it. */
interface Choice {
  readonly ceiling: Metres;
  readonly worth: number;
}

/** The ceiling below which the water comes cheapest; null when that is the top: no way round is worth it. */
async function chooseCeiling(ground: SearchGround, terms: CeilingTerms, job: RouteJob): Promise<Metres | null> {
  const { floor, top } = terms;
  const step = (top - floor) / FIRST_LOOK;
  const topmost = await tryCeiling(ground, terms, { ceiling: top, worth: Number.POSITIVE_INFINITY }, job);
  let best: Choice = topmost ?? { ceiling: top, worth: Number.POSITIVE_INFINITY };
  for (let k = 0; k < FIRST_LOOK; k++) best = (await below(ground, terms, best, floor + k * step, job)) ?? best;
  const { ceiling } = best;
  for (let k = 1; k < SECOND_LOOK; k++) {
    const lower = ceiling - (k * step) / SECOND_LOOK;
    if (lower > floor) best = (await below(ground, terms, best, lower, job)) ?? best;
  }
  return best.ceiling < top ? best.ceiling : null;
}

const below = (ground: SearchGround, terms: CeilingTerms, best: Choice, ceiling: Metres, job: RouteJob) =>
  tryCeiling(ground, terms, { ceiling, worth: best.worth }, job);

/** The best line below a ceiling, if its water comes cheaper than a worth. */
async function tryCeiling(
  ground: SearchGround,
  terms: CeilingTerms,
  { ceiling, worth }: Choice,
  job: RouteJob,
): Promise<Choice | null> {
  const mostCost = Number.isFinite(worth) ? costOfWorth(terms, worth, ceiling) : Number.POSITIVE_INFINITY;
  if (mostCost <= 0) return null;
  const found = await runSearch(ground, shortestRule({ ...terms, ceiling, mostCost }), job);
  if (found.state !== 'found') return null;
  const cost = found.way.at(-1)?.carried.first ?? 0;
  return { ceiling, worth: worthOfLift(terms, cost, ceiling) };
}

/**
 * Proposes the delivery line that brings water cheapest and, where it differs in kind, the shortest one beside it: over the
 * knoll, or round it.
 */
export async function proposeDelivery(site: RouteSite, job: RouteJob): Promise<RouteProposal> {
  const { field, ends, request } = site;
  const search: SearchGround = { field, ends, neighbours: 16 };
  const free = { ...request.settings, ceiling: Number.POSITIVE_INFINITY, mostCost: Number.POSITIVE_INFINITY };
  const shortest = await runSearch(search, shortestRule(free), job);
  if (shortest.state === 'full') return { kind: 'too-wide', ground: site.ground };
  if (shortest.state === 'none') return { kind: 'cut-off', ground: site.ground };
  const levels = levelsOf(site);
  const over = deliveryRoute(site, drawn(site, shortest.way, free), levels);
  const terms = { ...request.settings, pump: levels.pump, floor: levels.floor, top: over.highest };
  const round = terms.top > terms.floor ? await roundIt(site, search, terms, job) : null;
  if (!round || worth(terms, round) >= worth(terms, over)) {
    return { kind: 'route', ...over, other: null, ground: site.ground };
  }
  const other = differInKind(round, over, request.settings.worthShowing) ? over : null;
  return { kind: 'route', ...round, other, ground: site.ground };
}

interface Levels {
  readonly pump: Metres;
  readonly outlet: Metres;
  /** The lowest that a line's highest place can be. */
  readonly floor: Metres;
}

function levelsOf(site: RouteSite): Levels {
  const { from, to } = endHeights(site);
  const outlet = to + site.request.to.height;
  return { pump: from + site.request.from.height, outlet, floor: Math.max(from, to, outlet) };
}

const drawn = (site: RouteSite, raw: readonly WayPlace[], terms: ShortestTerms): readonly WayPlace[] =>
  drawWay(site.field, raw, shortestRule(terms), site.request.settings.bendAsLine);

function deliveryRoute(site: RouteSite, way: readonly WayPlace[], { pump, outlet }: Levels): ProposedRoute {
  const route = drawnRoute(site, way);
  return { ...route, governingLift: Math.max(route.highest, outlet) - pump, cut: null };
}

const liftOf = ({ governingLift }: ProposedRoute): Metres => governingLift ?? 0;

/** A drawn line's length stands for its laying cost, so that what steep ground adds is not counted against less lift twice. */
const worth = (terms: CeilingTerms, route: ProposedRoute): number =>
  worthOfLift(terms, route.length, terms.pump + liftOf(route));

/** Tries at a ceiling a little higher, where the whole field has no way below the one that its means suggest. */
const MOST_TRIES = 3;
/** How much higher each time, as a share of the way from floor to top. */
const RAISE = 1 / 16;

/** The line below the ceiling at which the water comes cheapest; null where the shortest is that line. */
async function roundIt(
  site: RouteSite,
  search: SearchGround,
  terms: CeilingTerms,
  job: RouteJob,
): Promise<ProposedRoute | null> {
  const chosen = await chooseCeiling(overviewOf(search).ground, terms, job);
  if (chosen === null) return null;
  for (let k = 0; k < MOST_TRIES; k++) {
    const ceiling = chosen + k * RAISE * (terms.top - terms.floor);
    if (ceiling >= terms.top) return null;
    const below = { ...terms, ceiling, mostCost: Number.POSITIVE_INFINITY };
    const found = await runSearch(search, shortestRule(below), job);
    if (found.state === 'full') return null;
    if (found.state === 'found') return deliveryRoute(site, drawn(site, found.way, below), levelsOf(site));
  }
  return null;
}

function differInKind(route: ProposedRoute, other: ProposedRoute, worthShowing: number): boolean {
  const saved = Math.abs(liftOf(other) - liftOf(route));
  return saved > worthShowing * Math.max(liftOf(route), liftOf(other));
}
