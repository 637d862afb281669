import type {
  Plan,
  PlanPoint,
  PlanRoute,
  PointId,
  PumpPoint,
  SourcePoint,
  StandpipePoint,
  TankPoint,
  TroughPoint,
} from '../../plan/model/plan.ts';

/** A place the pump delivers to, with the delivery line that leads there once it is drawn. */
export interface Destination {
  readonly point: TankPoint | TroughPoint;
  readonly route: PlanRoute | null;
}

/** A trough fed by gravity. */
export interface GravityFeed {
  readonly from: SourcePoint | TankPoint;
  readonly trough: TroughPoint;
  readonly route: PlanRoute;
}

/** Who feeds whom: the plan's points and routes put in the order in which the water passes them. */
export interface Arrangement {
  readonly source: SourcePoint | null;
  /** Null also where the drive pipe comes straight from the source and leaves a drawn standpipe aside. */
  readonly standpipe: StandpipePoint | null;
  readonly pump: PumpPoint | null;
  readonly supply: PlanRoute | null;
  readonly drive: PlanRoute | null;
  readonly destinations: readonly Destination[];
  readonly gravity: readonly GravityFeed[];
  readonly troughs: readonly TroughPoint[];
}

type OfRole<R extends PlanPoint['role']> = Extract<PlanPoint, { role: R }>;

function pointsOf<R extends PlanPoint['role']>(plan: Plan, role: R): OfRole<R>[] {
  return plan.points.filter((p): p is OfRole<R> => p.role === role);
}

function gravityFeed(points: ReadonlyMap<PointId, PlanPoint>, route: PlanRoute): GravityFeed | null {
  const from = points.get(route.from);
  const trough = points.get(route.to);
  if (trough?.role !== 'trough' || (from?.role !== 'tank' && from?.role !== 'source')) return null;
  return { from, trough, route };
}

/** Put a plan in order. Whatever is not drawn yet is null or missing from the lists. */
export function arrange(plan: Plan): Arrangement {
  const points = new Map(plan.points.map((p) => [p.id, p]));
  const routes = (role: PlanRoute['role']) => plan.routes.filter((r) => r.role === role);
  const deliveryTo = new Map(routes('delivery').map((r) => [r.to, r]));
  const troughs = pointsOf(plan, 'trough');
  const drive = routes('drive')[0] ?? null;
  const drawn = pointsOf(plan, 'standpipe')[0] ?? null;
  const standpipe = drive === null || drive.from === drawn?.id ? drawn : null;
  return {
    source: pointsOf(plan, 'source')[0] ?? null,
    standpipe,
    pump: pointsOf(plan, 'pump')[0] ?? null,
    supply: standpipe ? (routes('supply').find((r) => r.to === standpipe.id) ?? null) : null,
    drive,
    destinations: [...pointsOf(plan, 'tank'), ...troughs.filter((t) => deliveryTo.has(t.id))].map((point) => ({
      point,
      route: deliveryTo.get(point.id) ?? null,
    })),
    gravity: routes('gravity')
      .map((r) => gravityFeed(points, r))
      .filter((f) => f !== null),
    troughs,
  };
}
