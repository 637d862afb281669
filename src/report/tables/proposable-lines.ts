import type { Plan, PlanPoint, PointId, RouteRole } from '../../plan/model/plan.ts';

/** A line that is not drawn yet between two points that are placed. */
export interface ProposableLine {
  readonly role: RouteRole;
  readonly from: PlanPoint;
  readonly to: PlanPoint;
}

/**
 * Lines that the plan lacks and whose ends are placed: the supply line, the drive pipe, a delivery line to each tank that is
 * not set aside, and for each trough without any line a gravity line from each tank or, with no tank, from the source.
 */
export function proposableLines(plan: Plan): readonly ProposableLine[] {
  const first = (role: PlanPoint['role']) => plan.points.find((point) => point.role === role) ?? null;
  const [source, standpipe, pump] = [first('source'), first('standpipe'), first('pump')];
  const tanks = plan.points.filter((point) => point.role === 'tank' && point.standing !== 'set-aside');
  const reached = (id: PointId) => plan.routes.some(({ to }) => to === id);
  const line = (role: RouteRole, from: PlanPoint | null, to: PlanPoint | null): readonly ProposableLine[] =>
    from === null || to === null || reached(to.id) ? [] : [{ role, from, to }];
  const feeds = tanks.length > 0 ? tanks : source === null ? [] : [source];
  const troughs = plan.points.filter(({ role }) => role === 'trough');
  return [
    ...line('supply', source, standpipe),
    ...line('drive', standpipe ?? source, pump),
    ...tanks.flatMap((tank) => line('delivery', pump, tank)),
    ...troughs.flatMap((trough) => feeds.flatMap((feed) => line('gravity', feed, trough))),
  ];
}

/** How far above the ground the water leaves or enters a line at one of its points. */
export function lineEndHeight(point: PlanPoint, end: 'from' | 'to'): number {
  switch (point.role) {
    case 'source':
      return point.waterLevel;
    case 'standpipe':
      return point.inletHeight;
    case 'pump':
      return point.wasteValveHeight;
    case 'tank':
      return end === 'from' ? point.outletHeight : point.inletHeight;
    case 'trough':
      return point.valveHeight;
  }
}
