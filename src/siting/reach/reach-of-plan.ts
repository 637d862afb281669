import type { Ground } from '../../evaluation/evaluate/evaluate.ts';
import { accuracyFor } from '../../evaluation/site/heights.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Plan, PlanPipe } from '../../plan/model/plan.ts';
import { startingPipe } from '../../plan/model/starting-pipe.ts';
import type { GridTerrain } from '../../terrain/ground/ground-window.ts';
import type { Metres } from '../../units/quantity.ts';
import type { OpenGround } from '../fields/open-ground.ts';
import { type WayAim, type Ways, waysFrom } from '../fields/ways-from.ts';
import { USUAL_ROUTE_SETTINGS } from '../lines/route-settings.ts';
import { type DeliveryTable, deliveryTable } from './delivery-table.ts';
import { emptyReachMap, fillReachMap, type ReachMap } from './reach-map.ts';
import type { SiteWindow } from './site-window.ts';

/** The pump of a plan as the start of every line. */
export interface ReachStart {
  readonly table: DeliveryTable;
  readonly pump: { readonly cell: number; readonly valve: Metres };
  readonly source: { readonly cell: number };
  readonly inletHeight: Metres;
}

/** A tank's outlet above the ground where the plan has no tank to go by: that of a new one. */
const USUAL_INLET: Metres = 1.2;

/** Why there is no reach map. */
export type NoReach = 'no-source' | 'no-pump' | 'no-flow' | 'outside';

/** The pipe that a delivery line would be laid in: that of the plan's first one, or a round figure until one is chosen. */
export function deliveryPipeOf(plan: Plan): PlanPipe {
  const route = plan.routes.find((r) => r.role === 'delivery');
  return plan.pipes.find((p) => p.id === route?.pipe) ?? { id: 'reach', ...startingPipe('delivery', plan.units) };
}

/** Where a plan's pump stands in a window, and what it delivers over lift and length. */
export function reachStart(
  plan: Plan,
  ground: Ground,
  site: SiteWindow,
  pipe: PlanPipe = deliveryPipeOf(plan),
): ReachStart | NoReach {
  const source = plan.points.find((p) => p.role === 'source');
  const pump = plan.points.find((p) => p.role === 'pump');
  if (!source) return 'no-source';
  if (pump?.role !== 'pump') return 'no-pump';
  const pumpCell = site.cellAt(pump.position);
  const sourceCell = site.cellAt(source.position);
  const level = ground.points.get(pump.id)?.ground;
  if (pumpCell === null || sourceCell === null || level == null) return 'outside';
  const tank = plan.points.find((p) => p.role === 'tank');
  const table = deliveryTable({ plan, ground, pipe, mostLift: MOST_LIFT, mostLength: MOST_LENGTH });
  if (table === null) return 'no-flow';
  return {
    table,
    pump: { cell: pumpCell, valve: level + pump.wasteValveHeight },
    source: { cell: sourceCell },
    inletHeight: tank?.role === 'tank' ? tank.inletHeight : USUAL_INLET,
  };
}

/** Beyond them no ram of ordinary make delivers; common practice, no source. */
const MOST_LIFT: Metres = 600;
const MOST_LENGTH: Metres = 20_000;

/** The two ways to every cell that a reach map chooses between. */
export const reachAims = ({ table }: ReachStart): readonly [WayAim, WayAim] => [
  { kind: 'shortest' },
  { kind: 'least-head', friction: table.friction },
];

/** One pass over every cell from the pump. */
export function reachWays(ground: OpenGround, pump: ReachStart['pump'], aim: WayAim): Ways {
  return waysFrom(
    ground,
    { cell: pump.cell, level: ground.heights[pump.cell] as number },
    aim,
    USUAL_ROUTE_SETTINGS.deepest,
  );
}

/** What would arrive at a tank on every cell of a window. */
export function reachMap(
  ground: OpenGround,
  start: ReachStart,
  ways: readonly Ways[],
  accuracy: Ground['accuracy'],
): ReachMap {
  const map = emptyReachMap(ground);
  fillReachMap(map, { ground, ways, ...start, accuracy });
  return map;
}

/** The accuracy that a plan's heights are taken to have. */
export const accuracyOn = (plan: Plan, terrain: GridTerrain): Ground['accuracy'] => accuracyFor(plan, terrain.about);

/** Positions that a window for a plan must cover. */
export const placesOf = (plan: Plan): readonly Position[] =>
  plan.points.filter((p) => p.role === 'source' || p.role === 'pump').map((p) => p.position);
