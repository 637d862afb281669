import type { Plan, PlanRoute, PointId, RouteId } from '../../plan/model/plan.ts';

/** A way that water takes: routes one after the other, as one profile can show them. */
export interface WaterWay {
  /** Ids of its routes, joined; stable while they stay. */
  readonly id: string;
  readonly title: string;
  readonly routes: readonly RouteId[];
}

/** Every whole way of the water, from where it starts to each place where it ends, and then each route by itself. */
export function waterWays(plan: Plan): readonly WaterWay[] {
  const whole = plan.routes
    .filter((route) => !plan.routes.some((next) => follows(route, next)))
    .map((route) => wayTo(plan, route))
    .filter((routes) => routes.length > 1)
    .map((routes) => wayOf(plan, routes));
  return [...whole, ...plan.routes.map((route) => wayOf(plan, [route]))];
}

/** The routes that lead to one route, first to last; a ring ends where it closes. */
function wayTo(plan: Plan, last: PlanRoute): readonly PlanRoute[] {
  const routes = [last];
  for (;;) {
    const first = routes[0];
    const before = plan.routes.find((route) => first !== undefined && follows(route, first) && !routes.includes(route));
    if (before === undefined) return routes;
    routes.unshift(before);
  }
}

function follows(route: PlanRoute, next: PlanRoute): boolean {
  return route.to === next.from && route.id !== next.id;
}

function wayOf(plan: Plan, routes: readonly PlanRoute[]): WaterWay {
  const [first] = routes;
  const only = routes.length === 1 && first !== undefined ? first : null;
  const ends = `${pointName(plan, first?.from)} to ${pointName(plan, routes.at(-1)?.to)}`;
  return {
    id: routes.map((route) => route.id).join(' '),
    title: only === null ? ends : only.name || ends,
    routes: routes.map((route) => route.id),
  };
}

function pointName(plan: Plan, id: PointId | undefined): string {
  return plan.points.find((point) => point.id === id)?.name ?? '…';
}

/** A point or a route of the plan that the reader is looking at. */
export interface LookedAt {
  readonly kind: 'point' | 'route';
  readonly id: string;
}

/**
 * The way that a profile shows: the chosen one while it exists; else the first whole way through what is looked at; else the
 * first of all. Null while no route is drawn.
 */
export function wayFor(
  plan: Plan,
  wish: { readonly chosen: string | null; readonly lookedAt: LookedAt | null },
): WaterWay | null {
  const ways = waterWays(plan);
  const passes = (way: WaterWay) => way.routes.some((id) => touches(plan, id, wish.lookedAt));
  return ways.find((way) => way.id === wish.chosen) ?? ways.find(passes) ?? ways[0] ?? null;
}

function touches(plan: Plan, id: RouteId, lookedAt: LookedAt | null): boolean {
  if (lookedAt === null) return false;
  if (lookedAt.kind === 'route') return id === lookedAt.id;
  const route = plan.routes.find((candidate) => candidate.id === id);
  return route !== undefined && (route.to === lookedAt.id || route.from === lookedAt.id);
}
