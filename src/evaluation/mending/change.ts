import type { Plan, PlanPoint, PlanRoute, PointId, RouteId } from '../../plan/model/plan.ts';
import type { Ground } from '../evaluate/evaluate.ts';

/** Kinds of changes that a person makes to a plan to mend it. The words for them live in the report. */
export type ChangeKind =
  | 'set-intake'
  | 'fewer-pumps'
  | 'pump-size'
  | 'two-pumps'
  | 'wider-pipe'
  | 'stronger-pipe'
  | 'steel-drive'
  | 'fitting-drive'
  | 'deeper-trench'
  | 'vent'
  | 'raise-outlet'
  | 'taller-standpipe'
  | 'lower-inlet'
  | 'move-standpipe'
  | 'valve-weight'
  | 'larger-tank'
  | 'larger-trough'
  | 'raise-waste-valve'
  | 'air-chamber';

/** One change of a plan, not yet judged. */
export interface Change {
  readonly kind: ChangeKind;
  /** Point or route that is changed. */
  readonly about: PointId | RouteId;
  /** Numbers and names that the sentence needs, SI. */
  readonly facts: Readonly<Record<string, number | string>>;
  /** The plan with it done. */
  readonly plan: Plan;
  /** Whether points or lines move, so that the ground must be read anew. */
  readonly moves: boolean;
  /** What else fits the plan to the ground where it then stands. */
  readonly fit?: (ground: Ground) => Plan;
}

export const change = (kind: ChangeKind, about: string, facts: Change['facts'], plan: Plan, moves = false): Change => ({
  kind,
  about,
  facts,
  plan,
  moves,
});

export const withPoint = (plan: Plan, id: PointId, to: (point: PlanPoint) => PlanPoint): Plan => ({
  ...plan,
  points: plan.points.map((point) => (point.id === id ? to(point) : point)),
});

export const withRoute = (plan: Plan, id: RouteId, to: (route: PlanRoute) => PlanRoute): Plan => ({
  ...plan,
  routes: plan.routes.map((route) => (route.id === id ? to(route) : route)),
});

/** A route laid in a pipe of the handbook; a pipe that no route uses any more goes. */
export function laidIn(plan: Plan, id: RouteId, row: string): Plan {
  const known = plan.pipes.find((pipe) => pipe.kind === 'row' && pipe.row === row);
  const pipe = known ?? { id: freeId(plan), kind: 'row' as const, row };
  const routes = plan.routes.map((route) => (route.id === id ? { ...route, pipe: pipe.id } : route));
  const used = new Set(routes.map((route) => route.pipe));
  const pipes = [...plan.pipes, ...(known ? [] : [pipe])].filter((each) => used.has(each.id));
  return { ...plan, routes, pipes };
}

function freeId(plan: Plan): string {
  const taken = new Set(plan.pipes.map(({ id }) => id));
  for (let i = 1; ; i++) if (!taken.has(`pipe-${i}`)) return `pipe-${i}`;
}
