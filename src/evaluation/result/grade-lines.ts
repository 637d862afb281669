import { pipeFlow } from '../../hydraulics/pipe-flow.ts';
import { waterAt } from '../../hydraulics/water.ts';
import type { PlanRoute, RouteId } from '../../plan/model/plan.ts';
import type { CubicMetresPerSecond, Metres } from '../../units/quantity.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import type { GradeLine } from './evaluation.ts';

/** How the water stands in one line at the likely values. */
export interface LineWater {
  readonly flow: CubicMetresPerSecond;
  readonly friction: Metres;
  readonly running: GradeLine;
  readonly still: Metres;
}

type WaterOf = (system: SolvedSystem, route: PlanRoute, length: Metres) => LineWater | null;

const at = (system: SolvedSystem, output: number) => system.spread.likely[output] ?? 0;
const groundOf = (system: SolvedSystem, node: number) => system.model.nodes[node]?.ground ?? 0;

const waterLevelOf = (system: SolvedSystem) => groundOf(system, system.model.source) + system.model.waterLevel;

function supplyWater(system: SolvedSystem, length: Metres): LineWater | null {
  const { layout, model } = system;
  if (model.supply === null || !flows(system)) return null;
  const flow = at(system, layout.shared('running-flow'));
  const friction = model.supply.loss.headLoss(flow);
  const still = waterLevelOf(system);
  return { flow, friction, still, running: { at: [0, length], head: [still, still - friction] } };
}

/** The drive pipe beats; its mean water line falls from the standpipe's level to the waste valve. One of several carries its share. */
function driveWater(system: SolvedSystem, route: PlanRoute, length: Metres): LineWater | null {
  const { layout, model } = system;
  if (!flows(system)) return null;
  const level = at(system, layout.shared('running-level'));
  const wasteValve = groundOf(system, model.pump) + model.wasteValveHeight;
  return {
    flow: at(system, layout.shared('running-flow')) / model.pumps,
    friction: driveFriction(system, route),
    still: waterLevelOf(system),
    running: { at: [0, length], head: [level, wasteValve] },
  };
}

/** Head that the drive pipe's friction takes at the mean flow of one pump: the steady equivalent of a beat. */
function driveFriction({ site, layout, spread, model }: SolvedSystem, route: PlanRoute): Metres {
  const pipe = site.pipes.get(route.pipe);
  const length = site.profiles.get(route.id)?.line.slope;
  if (pipe === undefined || length === undefined) return 0;
  const { viscosity } = waterAt(site.plan.waterTemperature);
  const flow = (spread.likely[layout.shared('running-flow')] ?? 0) / model.pumps;
  return pipeFlow({ bore: pipe.bore, roughness: pipe.roughness, viscosity, length, k: 0 }).headLoss(flow);
}

/** Whether anything is known of the flow: a pump, a supply line or a reading of the source bounds it. */
function flows(system: SolvedSystem): boolean {
  return at(system, system.layout.shared('running-flow')) < Number.MAX_VALUE;
}

/** From the pump up to the place that governs; beyond a summit that governs the water runs down by itself to the outlet. */
function deliveryWater(system: SolvedSystem, route: PlanRoute, length: Metres): LineWater | null {
  const { layout, model } = system;
  const index = model.destinations.findIndex((d) => d.route === route.id);
  const destination = model.destinations[index];
  if (!destination?.loss || !flows(system)) return null;
  const wasteValve = groundOf(system, model.pump) + model.wasteValveHeight;
  const flow = at(system, layout.destination(index, 'delivery'));
  const governing = wasteValve + at(system, layout.destination(index, 'governing-lift'));
  const head = wasteValve + at(system, layout.destination(index, 'delivery-head'));
  const outlet = groundOf(system, destination.node) + destination.outletHeight;
  const summit =
    governing > outlet ? destination.highPlaces.find((p) => groundOf(system, p.node) === governing) : undefined;
  return {
    flow,
    friction: destination.loss.headLoss(flow),
    still: Math.max(governing, outlet),
    running: summit
      ? { at: [0, summit.at, length], head: [head, governing, outlet] }
      : { at: [0, length], head: [head, outlet] },
  };
}

function gravityWater(system: SolvedSystem, route: PlanRoute, length: Metres): LineWater | null {
  const { layout, model } = system;
  const index = model.feeds.findIndex((f) => f.route === route.id);
  const feed = model.feeds[index];
  if (!feed) return null;
  const flow = at(system, layout.feed(index, 'feed-flow'));
  const still = groundOf(system, feed.from) + feed.fromHeight;
  const friction = feed.loss.headLoss(flow);
  return { flow, friction, still, running: { at: [0, length], head: [still, still - friction] } };
}

const BY_ROLE: Record<PlanRoute['role'], WaterOf> = {
  supply: (system, _, length) => supplyWater(system, length),
  drive: driveWater,
  delivery: deliveryWater,
  gravity: gravityWater,
};

/** Flow, friction and water lines of every route of a system that are known, at the likely values. */
export function lineWaters(system: SolvedSystem): ReadonlyMap<RouteId, LineWater> {
  return new Map(
    [...system.site.profiles.values()].flatMap(({ route, line }) => {
      const water = BY_ROLE[route.role](system, route, line.horizontal);
      return water === null ? [] : [[route.id, water] as const];
    }),
  );
}
