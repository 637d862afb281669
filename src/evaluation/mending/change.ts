import type { Plan, PlanPoint, PlanRoute, PointId, RouteId } from '../../plan/model/plan.ts';
import type { Ground } from '../evaluate/evaluate.ts';

/** Kinds of changes that a person makes to a plan to mend it. The words for them live in the report. */
export type ChangeKind =
  | 'set-intake'
  | 'fewer-pumps'
  | 'pump-size'
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
