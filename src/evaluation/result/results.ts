import type { CubicMetresPerSecond } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { type Drawn, drawnBy } from '../model/run-feed.ts';
import type { DestinationModel } from '../model/system-model.ts';
import type { Site } from '../site/site.ts';
import { sourceFlow } from '../site/source-yield.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import { DAY, type Estimate } from '../statistics/estimate.ts';
import { Z90 } from '../statistics/normal.ts';
import type { DeliveryResult, PointResult, PumpResult, SourceResult, TroughResult } from './evaluation.ts';

/** Flows and lengths cannot be less than nothing. */
const notNegative = (e: Estimate): Estimate => ({
  low: Math.max(0, e.low),
  likely: Math.max(0, e.likely),
  high: Math.max(0, e.high),
});

const times = (e: Estimate, factor: number): Estimate => ({
  low: e.low * factor,
  likely: e.likely * factor,
  high: e.high * factor,
});

/** A flow's estimate, or null where nothing bounds the flow. */
function bounded(e: Estimate): Estimate | null {
  return e.likely < Number.MAX_VALUE ? notNegative(e) : null;
}

export function pointResults({ plan, heights }: Site): PointResult[] {
  return plan.points.map((point) => {
    const ground = heights.node(point.id)?.ground ?? null;
    return {
      id: point.id,
      role: point.role,
      ground,
      groundFrom: heights.from(point.id),
      level: ground === null ? null : ground + levelHeight(point),
      smoothing: heights.smoothing(point.id),
    };
  });
}

/** Height above ground of the level that governs at a point. */
export function levelHeight(point: Site['plan']['points'][number]): number {
  switch (point.role) {
    case 'source':
      return point.waterLevel;
    case 'standpipe':
      return point.inletHeight;
    case 'pump':
      return point.wasteValveHeight;
    case 'tank':
      return point.inletHeight;
    case 'trough':
      return point.valveHeight;
  }
}

export function sourceResult({ plan }: Site, system: SolvedSystem | null): SourceResult {
  const read = sourceFlow(plan.yieldReadings);
  const around = (flow: CubicMetresPerSecond, deviation: CubicMetresPerSecond): Estimate =>
    notNegative({ low: flow - Z90 * deviation, likely: flow, high: flow + Z90 * deviation });
  const available = system?.model.available ?? null;
  return {
    flow: read && around(read.flow, read.deviation),
    available: available && around(available.flow, available.deviation),
    drawn: system && sourceDrawn(system),
  };
}

export function pumpResult({ site, known, layout, model }: SolvedSystem): PumpResult {
  const { source, pump } = site.arrangement;
  const shared = (name: Parameters<typeof layout.shared>[0]) => known.estimate(layout.shared(name));
  return {
    fallAtRest: shared('fall-at-rest'),
    fallBias: site.heights.smoothing(source?.id ?? '') - site.heights.smoothing(pump?.id ?? ''),
    fall: shared('fall'),
    driveFlow: bounded(shared('drive-flow')),
    count: model.pumps,
    supplyLimit: model.supply && model.standpipe ? bounded(shared('supply-limit')) : null,
    spill: model.supply && model.standpipe ? bounded(shared('spill')) : null,
    efficiency: shared('efficiency'),
    measuredRuns: model.each.runs.fitted,
  };
}

/** Which place governs at the likely values. */
function governedBy(
  system: SolvedSystem,
  destination: DestinationModel,
  governingLift: number,
): DeliveryResult['governedBy'] {
  const { model } = system;
  const ground = (node: number) => model.nodes[node]?.ground ?? 0;
  const level = ground(model.pump) + model.wasteValveHeight + governingLift;
  const outlet = ground(destination.node) + destination.outletHeight;
  const summit = destination.highPlaces.reduce<(typeof destination.highPlaces)[number] | null>(
    (nearest, p) =>
      nearest === null || Math.abs(ground(p.node) - level) < Math.abs(ground(nearest.node) - level) ? p : nearest,
    null,
  );
  if (summit === null || Math.abs(outlet - level) <= Math.abs(ground(summit.node) - level)) return 'outlet';
  return { summit: summit.at };
}

export function deliveryResult(system: SolvedSystem, index: number): DeliveryResult | null {
  const { spread, known: outputs, layout, model } = system;
  const destination = model.destinations[index];
  if (!destination?.loss || destination.route === null) return null;
  const of = (name: Parameters<typeof layout.destination>[1]) => outputs.estimate(layout.destination(index, name));
  const known = valueAt(spread.likely, layout.shared('running-flow')) < Number.MAX_VALUE;
  const delivery = known ? notNegative(of('arrives')) : null;
  const ifRunning = known ? notNegative(of('delivery')) : null;
  const governingLift = of('governing-lift');
  return {
    route: destination.route,
    governingLift,
    governedBy: governedBy(system, destination, governingLift.likely),
    liftOverFall: of('lift-over-fall'),
    delivery,
    deliveryPerDay: delivery && times(delivery, DAY),
    ifRunningPerDay: ifRunning && times(ifRunning, DAY),
    runs: outputs.spread(layout.destination(index, 'runs')).chanceAtLeast(1),
    friction: known ? of('friction').likely : null,
  };
}

export function troughResults(site: Site, system: SolvedSystem | null): TroughResult[] {
  const { demandPerDay, shares } = site;
  const led = new Set(site.plan.routes.map((r) => r.to));
  return site.arrangement.troughs.map(({ id }) => {
    const feed = system ? system.model.feeds.findIndex((f) => f.id === id) : -1;
    const trough = system ? system.model.troughs.findIndex((t) => t.id === id) : -1;
    const of = (output: number) => system?.known.estimate(output) ?? null;
    return {
      id,
      needPerDay: demandPerDay !== null && led.has(id) ? demandPerDay * shares.drunkAt(id) : null,
      flow: system && feed >= 0 ? of(system.layout.feed(feed, 'feed-flow')) : null,
      stillHead: system && feed >= 0 ? of(system.layout.feed(feed, 'feed-still-head')) : null,
      belowSource: system && trough >= 0 ? of(system.layout.trough(trough, 'below-source')) : null,
    };
  });
}

/** What lines from the source to troughs likely take beside the pump, together; null without such a line. */
export function sourceDrawn({ model, layout, spread }: SolvedSystem): Drawn | null {
  if (!model.feeds.some((feed) => feed.draw !== null)) return null;
  const each = model.feeds.map((feed, i) => drawnBy(feed, valueAt(spread.likely, layout.feed(i, 'feed-flow'))));
  return { mean: each.reduce((sum, d) => sum + d.mean, 0), open: each.reduce((sum, d) => sum + d.open, 0) };
}
