import type { CubicMetresPerSecond, Metres, Ratio } from '../units/quantity.ts';
import type { OutputLayout } from './outputs.ts';
import { risingRoot } from './rising-root.ts';
import type { DestinationModel, FeedModel, HighPlace, LossLaw, SystemModel, SystemState } from './system-model.ts';

/** Flow at the pump of one state, passed on to the delivery lines. */
interface Drive {
  readonly flow: CubicMetresPerSecond;
  readonly fall: Metres;
  /** Efficiency of the pump at a delivery head. */
  readonly efficiencyAt: (head: Metres) => Ratio;
  readonly wasteValve: Metres;
  readonly source: Metres;
}

/** The least flow that every high place passes without its pressure falling below the air's, given the level behind it. */
function flowPast(level: Metres, places: readonly HighPlace[], ground: Float64Array): CubicMetresPerSecond {
  let most = Number.MAX_VALUE;
  for (const place of places) {
    most = Math.min(most, place.loss.flowFor(Math.max(0, level - (ground[place.node] ?? 0))));
  }
  return most;
}

/** Least height of the water line above the high places at a flow; 0 where there are none. */
function clearance(
  level: Metres,
  flow: CubicMetresPerSecond,
  places: readonly HighPlace[],
  ground: Float64Array,
): Metres {
  if (places.length === 0) return 0;
  let least = Number.MAX_VALUE;
  for (const place of places) {
    least = Math.min(least, level - place.loss.headLoss(flow) - (ground[place.node] ?? 0));
  }
  return least;
}

/** Governing level of a delivery line at a flow: the highest of outlet and high places, each with the loss up to it. */
function governing(
  destination: DestinationModel & { readonly loss: LossLaw },
  flow: CubicMetresPerSecond,
  ground: Float64Array,
): { level: Metres; loss: Metres } {
  let level = (ground[destination.node] ?? 0) + destination.outletHeight;
  let loss = destination.loss.headLoss(flow);
  for (const place of destination.highPlaces) {
    const height = ground[place.node] ?? 0;
    const upTo = place.loss.headLoss(flow);
    if (height + upTo > level + loss) {
      level = height;
      loss = upTo;
    }
  }
  return { level, loss };
}

/**
 * Delivered flow q with q·h(q) = η Q H, h the delivery head at the pump with the friction of q.
 *
 * The left side rises with q. Never more than the pump is given, nor than a pump without losses would lift.
 */
function deliveredFlow(
  destination: DestinationModel & { readonly loss: LossLaw },
  drive: Drive,
  ground: Float64Array,
): CubicMetresPerSecond {
  const input = drive.flow * Math.max(0, drive.fall);
  if (input <= 0) return 0;
  const headAt = (q: CubicMetresPerSecond) => {
    const { level, loss } = governing(destination, q, ground);
    return level - drive.wasteValve + loss;
  };
  const headless = headAt(0);
  const most = headless * drive.flow > input ? input / headless : drive.flow;
  return risingRoot((q) => {
    const head = headAt(q);
    return q * head - drive.efficiencyAt(head) * input;
  }, most);
}

/** Least pressure head at a high place while the line runs full to its outlet; 0 where there are none. */
function crestHead(
  destination: DestinationModel & { readonly loss: LossLaw },
  q: CubicMetresPerSecond,
  ground: Float64Array,
): Metres {
  if (destination.highPlaces.length === 0) return 0;
  const atStart = (ground[destination.node] ?? 0) + destination.outletHeight + destination.loss.headLoss(q);
  return clearance(atStart, q, destination.highPlaces, ground);
}

function runDestination(
  destination: DestinationModel,
  drive: Drive,
  context: {
    readonly ground: Float64Array;
    readonly write: (name: Parameters<OutputLayout['destination']>[1], value: number) => void;
  },
): void {
  const { ground, write } = context;
  const outlet = (ground[destination.node] ?? 0) + destination.outletHeight;
  write('lift', outlet - drive.wasteValve);
  write('level-over-source', outlet - drive.source);
  const { loss } = destination;
  if (loss === null) return;
  const drawn = { ...destination, loss };
  const q = deliveredFlow(drawn, drive, ground);
  const top = governing(drawn, q, ground);
  const lift = top.level - drive.wasteValve;
  const head = lift + top.loss;
  const fullHead = outlet - drive.wasteValve + loss.headLoss(q);
  const backHead = destination.vented ? head : fullHead;
  write('governing-lift', lift);
  write('delivery', q);
  write('delivery-head', head);
  write('friction', top.loss);
  write('friction-share', lift > 0 ? top.loss / lift : 0);
  write('lift-over-fall', drive.fall > 0 ? head / drive.fall : 0);
  write('back-pressure-ratio', drive.fall > 0 ? backHead / drive.fall : 0);
  write('back-pressure-head', backHead);
  write('crest-head', crestHead(drawn, q, ground));
}

function runFeed(
  feed: FeedModel,
  ground: Float64Array,
): { flow: CubicMetresPerSecond; still: Metres; clearance: Metres } {
  const level = (ground[feed.from] ?? 0) + feed.fromHeight;
  const still = level - (ground[feed.node] ?? 0) - feed.valveHeight;
  const free = feed.loss.flowFor(Math.max(0, still));
  return {
    flow: Math.min(free, flowPast(level, feed.highPlaces, ground)),
    still,
    clearance: clearance(level, free, feed.highPlaces, ground),
  };
}

/** What the pump takes: as set, or the most that source, line and pump allow, but never less than it needs to run. */
function intakeOf(model: SystemModel, state: SystemState, supplyLimit: CubicMetresPerSecond): CubicMetresPerSecond {
  const { intakeSet, intakeLeast, intakeMost } = model.behaviour;
  if (intakeSet !== null) return intakeSet;
  return Math.max(intakeLeast, Math.min(intakeMost, state.available, supplyLimit));
}

/** The most a supply line brings before the standpipe's inlet draws air. */
function supplyLimit(model: SystemModel, source: Metres, ground: Float64Array): CubicMetresPerSecond {
  const { supply, standpipe } = model;
  if (supply === null || standpipe === null) return Number.MAX_VALUE;
  const inlet = (ground[standpipe.node] ?? 0) + standpipe.inletHeight + standpipe.submergence;
  return supply.loss.flowFor(Math.max(0, source - inlet));
}

/** Run the system once: solve the supply line, the standpipe's level and the pump together, then every line behind it. */
export function runSystem(model: SystemModel, layout: OutputLayout, state: SystemState, out: Float64Array): void {
  const { ground } = state;
  const source = (ground[model.source] ?? 0) + model.waterLevel;
  const wasteValve = (ground[model.pump] ?? 0) + model.wasteValveHeight;
  const limit = supplyLimit(model, source, ground);
  const intake = intakeOf(model, state, limit);
  const flow = Math.min(intake, state.available, limit);
  const runningLevel = source - (model.supply?.loss.headLoss(flow) ?? 0);
  const fall = runningLevel - wasteValve;
  const efficiencyAt = (head: Metres) => model.behaviour.efficiency(state.efficiency, { flow, fall, head });
  const drive: Drive = { flow, fall, efficiencyAt, wasteValve, source };
  out[layout.shared('fall-at-rest')] = source - wasteValve;
  out[layout.shared('fall')] = fall;
  out[layout.shared('drive-flow')] = intake;
  out[layout.shared('running-flow')] = flow;
  out[layout.shared('supply-limit')] = limit;
  out[layout.shared('available')] = state.available;
  out[layout.shared('efficiency')] = efficiencyAt(model.designHead);
  out[layout.shared('running-level')] = runningLevel;
  out[layout.shared('freeboard')] = model.standpipe
    ? (ground[model.standpipe.node] ?? 0) + model.standpipe.topHeight - source
    : 0;
  out[layout.shared('supply-clearance')] = clearance(source, flow, model.supply?.highPlaces ?? [], ground);
  model.destinations.forEach((destination, i) => {
    runDestination(destination, drive, { ground, write: (name, value) => (out[layout.destination(i, name)] = value) });
  });
  model.feeds.forEach((feed, i) => {
    const result = runFeed(feed, ground);
    out[layout.feed(i, 'feed-flow')] = result.flow;
    out[layout.feed(i, 'feed-still-head')] = result.still;
    out[layout.feed(i, 'feed-clearance')] = result.clearance;
  });
  model.troughs.forEach((trough, i) => {
    out[layout.trough(i, 'below-source')] = source - (ground[trough.node] ?? 0) - trough.valveHeight;
  });
}
