import type { PointRole, RouteRole } from '../../plan/model/plan.ts';

type Ends = Readonly<Record<'from' | 'to', ReadonlySet<PointRole>>>;

function ends(from: readonly PointRole[], to: readonly PointRole[]): Ends {
  return { from: new Set(from), to: new Set(to) };
}

/** Which points a route of a role may start and end at; the first of each is the usual one. */
const ENDS: Readonly<Record<RouteRole, Ends>> = {
  supply: ends(['source'], ['standpipe']),
  drive: ends(['standpipe', 'source'], ['pump']),
  delivery: ends(['pump'], ['tank', 'trough']),
  gravity: ends(['tank', 'source'], ['trough']),
};

export function rolesAtEnd(route: RouteRole, end: 'from' | 'to'): ReadonlySet<PointRole> {
  return ENDS[route][end];
}
