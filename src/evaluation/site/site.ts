import { herdPeak, herdRow } from '../../handbook/livestock-needs.ts';
import type { HerdGroup, PipeId, Plan, PointId, RouteId } from '../../plan/model/plan.ts';
import type { GroundLine, GroundPoint, HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { CubicMetres } from '../../units/quantity.ts';
import { type Arrangement, arrange } from './arrangement.ts';
import { type PointHeights, pointHeights } from './heights.ts';
import { type HerdShares, herdShares } from './herd-shares.ts';
import { type LineProfile, lineProfile } from './line-profile.ts';
import { type PipeOfPlan, pipeOfPlan } from './pipe-of-plan.ts';

/** A plan on its ground, as far as it can be known before anything flows. */
export interface Site {
  readonly plan: Plan;
  readonly arrangement: Arrangement;
  readonly heights: PointHeights;
  readonly profiles: ReadonlyMap<RouteId, LineProfile>;
  readonly pipes: ReadonlyMap<PipeId, PipeOfPlan>;
  /** What the herd drinks a day, m³; null without a herd. */
  readonly demandPerDay: number | null;
  /** Where it drinks. */
  readonly shares: HerdShares;
}

/** What one head of a group drinks a day, m³: for a row of the handbook the upper end of its warmest figure. */
function needOf(group: HerdGroup): CubicMetres {
  if (group.kind === 'own') return group.needPerDay;
  const row = herdRow(group.row);
  if (row === null) throw new Error(`found herd row ${group.row}, expected one of the handbook`);
  return herdPeak(row).high;
}

/** What the herd drinks a day, m³; null without a herd. */
function demandPerDay(plan: Plan): CubicMetres | null {
  return plan.herd.length === 0 ? null : plan.herd.reduce((sum, group) => sum + group.count * needOf(group), 0);
}

/** A plan put on its ground. */
export function siteOf(
  plan: Plan,
  ground: {
    readonly points: ReadonlyMap<PointId, GroundPoint>;
    readonly lines: ReadonlyMap<RouteId, GroundLine>;
    readonly accuracy: HeightAccuracy;
  },
): Site {
  const heights = pointHeights(plan, ground.points, ground.accuracy);
  const profiles = plan.routes.flatMap((route) => {
    const line = ground.lines.get(route.id);
    return line ? [[route.id, lineProfile(route, line, { heights, accuracy: ground.accuracy })] as const] : [];
  });
  const arrangement = arrange(plan);
  return {
    plan,
    arrangement,
    heights,
    profiles: new Map(profiles),
    pipes: new Map(plan.pipes.map((p) => [p.id, pipeOfPlan(p, plan.waterTemperature)])),
    demandPerDay: demandPerDay(plan),
    shares: herdShares(arrangement),
  };
}
