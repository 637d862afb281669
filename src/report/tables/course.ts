import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import type { Plan, PlanPoint, PlanRoute, PointId, PointRole, RouteRole } from '../../plan/model/plan.ts';

/** One row of the way of the water: a point, a route, or one of them that is still to be drawn. */
export type CourseRow =
  | { readonly kind: 'point'; readonly point: PlanPoint; readonly depth: number }
  | { readonly kind: 'route'; readonly route: PlanRoute; readonly depth: number }
  | { readonly kind: 'missing-point'; readonly role: PointRole; readonly depth: number }
  | {
      readonly kind: 'missing-route';
      readonly role: RouteRole;
      readonly depth: number;
      /** The points that it would join, once both are placed. */
      readonly ends: { readonly from: PointId; readonly to: PointId } | null;
    };

/**
 * The plan in the order in which the water passes it: source, supply line, standpipe, drive pipe and pump, then each tank
 * after its delivery line and each trough after its gravity line. What is missing has a row where it belongs.
 */
export function courseOf(plan: Plan): readonly CourseRow[] {
  const head = headRows(plan);
  const tanks = plan.points.filter((point) => point.role === 'tank').flatMap((tank) => tankRows(plan, tank));
  const rows = [...head, ...(tanks.length > 0 ? tanks : [missing('tank', 1)])];
  const shown = new Set(
    rows.flatMap((row) => (row.kind === 'point' ? [row.point.id] : row.kind === 'route' ? [row.route.id] : [])),
  );
  const troughs = plan.points.filter((point) => point.role === 'trough' && !shown.has(point.id));
  const otherPoints = plan.points.filter((point) => point.role !== 'trough' && !shown.has(point.id));
  const restPoints = [...otherPoints, ...troughs].flatMap((point) => withRoutesTo(plan, point, shown));
  const left = plan.routes.filter((route) => !shown.has(route.id));
  return [...rows, ...restPoints, ...left.map((route): CourseRow => ({ kind: 'route', route, depth: 1 }))];
}

function headRows(plan: Plan): CourseRow[] {
  const source = firstOf(plan, 'source');
  const standpipe = firstOf(plan, 'standpipe');
  const pump = firstOf(plan, 'pump');
  const drivesFromSource = plan.routes.some((route) => route.role === 'drive' && route.from === source?.id);
  const before = standpipe ?? source;
  const standpipeRows =
    drivesFromSource && standpipe === undefined
      ? []
      : [routeRow(plan, 'supply', { from: source, to: standpipe }, 0), pointRow(standpipe, 'standpipe', 0)];
  return [
    pointRow(source, 'source', 0),
    ...standpipeRows,
    routeRow(plan, 'drive', { from: before, to: pump }, 0),
    pointRow(pump, 'pump', 0),
  ];
}

function tankRows(plan: Plan, tank: PlanPoint): CourseRow[] {
  const delivery = routeRow(plan, 'delivery', { from: firstOf(plan, 'pump'), to: tank }, 1);
  const onward = plan.routes
    .filter((route) => route.from === tank.id)
    .flatMap((route): CourseRow[] => {
      const trough = plan.points.find((point) => point.id === route.to);
      return trough === undefined
        ? []
        : [
            { kind: 'route', route, depth: 2 },
            { kind: 'point', point: trough, depth: 2 },
          ];
    });
  return [delivery, { kind: 'point', point: tank, depth: 1 }, ...onward];
}

function withRoutesTo(plan: Plan, point: PlanPoint, shown: Set<string>): CourseRow[] {
  const routes = plan.routes.filter((route) => route.to === point.id && !shown.has(route.id));
  for (const route of routes) shown.add(route.id);
  return [
    ...routes.map((route): CourseRow => ({ kind: 'route', route, depth: 1 })),
    { kind: 'point', point, depth: 1 },
  ];
}

function firstOf(plan: Plan, role: PointRole): PlanPoint | undefined {
  return plan.points.find((point) => point.role === role);
}

function pointRow(point: PlanPoint | undefined, role: PointRole, depth: number): CourseRow {
  return point === undefined ? missing(role, depth) : { kind: 'point', point, depth };
}

function missing(role: PointRole, depth: number): CourseRow {
  return { kind: 'missing-point', role, depth };
}

function routeRow(
  plan: Plan,
  role: RouteRole,
  ends: { readonly from: PlanPoint | undefined; readonly to: PlanPoint | undefined },
  depth: number,
): CourseRow {
  const { from, to } = ends;
  const route = plan.routes.find((candidate) => candidate.role === role && candidate.to === to?.id);
  if (route !== undefined) return { kind: 'route', route, depth };
  const both = from === undefined || to === undefined ? null : { from: from.id, to: to.id };
  return { kind: 'missing-route', role, depth, ends: both };
}

/** The number that a row of the course carries, in SI: a point's ground height or a route's length along the ground. */
export function courseNumber(row: CourseRow, evaluation: Evaluation | null): number | null {
  if (row.kind === 'point') return evaluation?.points.find(({ id }) => id === row.point.id)?.ground ?? null;
  if (row.kind === 'route') return evaluation?.lines.find(({ id }) => id === row.route.id)?.slope ?? null;
  return null;
}

/** The rows that stand open, and those of tanks that were set aside, which fold into one line. */
export function unfolded(
  rows: readonly CourseRow[],
  { points }: Plan,
): { readonly rows: readonly CourseRow[]; readonly aside: readonly CourseRow[] } {
  const tanks = new Set(points.flatMap((p) => (p.role === 'tank' && p.standing === 'set-aside' ? [p.id] : [])));
  const belongs = (row: CourseRow): boolean => {
    if (row.kind === 'point') return tanks.has(row.point.id);
    if (row.kind === 'route') return tanks.has(row.route.from) || tanks.has(row.route.to);
    return row.kind === 'missing-route' && row.ends !== null && tanks.has(row.ends.to);
  };
  return { rows: rows.filter((row) => !belongs(row)), aside: rows.filter(belongs) };
}
