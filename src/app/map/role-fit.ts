import type { PointRole, RouteRole } from '../../plan/plan.ts';

/** Which points a route of a role may start and end at; the first of each is the usual one. */
const ENDS: Readonly<Record<RouteRole, { readonly from: readonly PointRole[]; readonly to: readonly PointRole[] }>> = {
  supply: { from: ['source'], to: ['standpipe'] },
  drive: { from: ['standpipe', 'source'], to: ['pump'] },
  delivery: { from: ['pump'], to: ['tank', 'trough'] },
  gravity: { from: ['tank', 'source'], to: ['trough'] },
};

export function rolesAtEnd(route: RouteRole, end: 'from' | 'to'): ReadonlySet<PointRole> {
  return new Set(ENDS[route][end]);
}
