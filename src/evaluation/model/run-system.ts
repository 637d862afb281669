import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import { risingRoot } from '../statistics/rising-root.ts';
import type { DestinationOutput, OutputLayout, SharedOutput } from './outputs.ts';
import { type Drawn, drawnBy, runFeed } from './run-feed.ts';
import { clearance, type LineState, lossFactor } from './run-line.ts';
import { type DestinationModel, type LossLaw, type SystemModel, type SystemState, UNBOUNDED } from './system-model.ts';

/** What the pump takes: as set, or the most that source, line and pump allow, but never less than it needs to run. */
function intakeOf(model: SystemModel, most: CubicMetresPerSecond): CubicMetresPerSecond {
  const { intakeSet, intakeLeast, intakeMost } = model.behaviour;
  if (intakeSet !== null) return intakeSet;
  return Math.max(intakeLeast, Math.min(intakeMost, most));
}

/** The most a supply line brings before the standpipe's inlet draws air. */
function supplyLimit(model: SystemModel, source: Metres, line: LineState): CubicMetresPerSecond {
  const { supply, standpipe } = model;
  if (supply === null || standpipe === null) return Number.MAX_VALUE;
  const inlet = (line.ground[standpipe.node] ?? 0) + standpipe.inletHeight + standpipe.submergence;
  return supply.loss.flowFor(Math.max(0, source - inlet) / line.lossFactor);
}

/** Source, supply line, standpipe and pump, solved together; what every delivery line then works with. */
function runDrive(
  model: SystemModel,
  { state, drawn }: { readonly state: SystemState; readonly drawn: Drawn },
  write: (name: SharedOutput, value: number) => void,
): Drive {
  const { ground, available } = state;
  const line: LineState = { ground, lossFactor: lossFactor(model.supply?.lossDoubt ?? 0, state.supplyLoss) };
  const source = (ground[model.source] ?? 0) + model.waterLevel;
  const wasteValve = (ground[model.pump] ?? 0) + model.wasteValveHeight;
  const limit = supplyLimit(model, source, line);
  const forPump = Math.max(0, available - drawn.mean);
  const intake = intakeOf(model, Math.min(forPump, limit));
  const flow = Math.min(intake, forPump, limit);
  // A flow that nothing bounds is not known: heads are then those at rest.
  const known = flow < UNBOUNDED ? flow : 0;
  const runningLevel = source - line.lossFactor * (model.supply?.loss.headLoss(known) ?? 0);
  const fall = runningLevel - wasteValve;
  const efficiencyAt = (head: Metres) => model.behaviour.efficiency(state.efficiency, { flow: known, fall, head });
  write('fall-at-rest', source - wasteValve);
  write('fall', fall);
  write('drive-flow', intake);
  write('running-flow', flow);
  write('supply-limit', limit);
  write('for-pump', forPump);
  write('left-for-pump', Math.max(0, available - drawn.open));
  write('efficiency', efficiencyAt(model.designHead));
  write('running-level', runningLevel);
  write('over-inlet', runningLevel - standpipeAt(model, ground, 'inletHeight'));
  write('freeboard', standpipeAt(model, ground, 'topHeight') - source);
  write('supply-clearance', clearance(source, known, model.supply?.highPlaces ?? [], line));
  return { flow: known, fall, efficiencyAt, wasteValve, source };
}

/** Level of a part of the standpipe; 0 without one. */
function standpipeAt({ standpipe }: SystemModel, ground: Float64Array, part: 'inletHeight' | 'topHeight'): Metres {
  return standpipe === null ? 0 : (ground[standpipe.node] ?? 0) + standpipe[part];
}

/** Every gravity line in one state; what those from the source take of its water together. */
function runFeeds(model: SystemModel, layout: OutputLayout, state: SystemState, out: Float64Array): Drawn {
  const { ground, available } = state;
  let mean = 0;
  let open = 0;
  model.feeds.forEach((feed, i) => {
    const run = runFeed(feed, { ground, lossFactor: lossFactor(feed.lossDoubt, state.lineLoss) }, available);
    const drawn = drawnBy(feed, run.flow);
    mean += drawn.mean;
    open += drawn.open;
    out[layout.feed(i, 'feed-flow')] = run.flow;
    out[layout.feed(i, 'feed-still-head')] = run.still;
    out[layout.feed(i, 'feed-clearance')] = run.clearance;
  });
  return { mean, open };
}

/** Run the system once in one state of what is not known: every output into its place. */
export function runSystem(model: SystemModel, layout: OutputLayout, state: SystemState, out: Float64Array): void {
  const { ground } = state;
  const drawn = runFeeds(model, layout, state, out);
  const drive = runDrive(model, { state, drawn }, (name, value) => {
    out[layout.shared(name)] = value;
  });
  model.destinations.forEach((destination, i) => {
    const line = { ground, lossFactor: lossFactor(destination.lossDoubt, state.lineLoss) };
    const write = (name: Parameters<OutputLayout['destination']>[1], value: number) => {
      out[layout.destination(i, name)] = value;
    };
    runDestination(destination, drive, { line, write });
  });
  model.troughs.forEach((trough, i) => {
    out[layout.trough(i, 'below-source')] = drive.source - (ground[trough.node] ?? 0) - trough.valveHeight;
  });
}

/** Flow at the pump of one state, passed on to the delivery lines. */
interface Drive {
  readonly flow: CubicMetresPerSecond;
  readonly fall: Metres;
  /** Efficiency of the pump at a delivery head. */
  readonly efficiencyAt: (head: Metres) => Ratio;
  readonly wasteValve: Metres;
  readonly source: Metres;
}

/** Governing level of a delivery line at a flow: the highest of outlet and high places, each with the loss up to it. */
function governing(
  destination: DestinationModel & { readonly loss: LossLaw },
  flow: CubicMetresPerSecond,
  { ground, lossFactor: k }: LineState,
): { level: Metres; loss: Metres } {
  let level = (ground[destination.node] ?? 0) + destination.outletHeight;
  let loss = k * destination.loss.headLoss(flow);
  for (const place of destination.highPlaces) {
    const height = ground[place.node] ?? 0;
    const upTo = k * place.loss.headLoss(flow);
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
  line: LineState,
): CubicMetresPerSecond {
  const input = drive.flow * Math.max(0, drive.fall);
  if (input <= 0) return 0;
  const headAt = (q: CubicMetresPerSecond) => {
    const { level, loss } = governing(destination, q, line);
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
  line: LineState,
): Metres {
  if (destination.highPlaces.length === 0) return 0;
  const outlet = (line.ground[destination.node] ?? 0) + destination.outletHeight;
  return clearance(outlet + line.lossFactor * destination.loss.headLoss(q), q, destination.highPlaces, line);
}

/** Write down everything one destination's delivery line comes to. */
function runDestination(
  destination: DestinationModel,
  drive: Drive,
  context: { readonly line: LineState; readonly write: (name: DestinationOutput, value: number) => void },
): void {
  const { line, write } = context;
  const outlet = (line.ground[destination.node] ?? 0) + destination.outletHeight;
  write('lift', outlet - drive.wasteValve);
  write('level-over-source', outlet - drive.source);
  const { loss } = destination;
  if (loss === null) return;
  const drawn = { ...destination, loss };
  const q = deliveredFlow(drawn, drive, line);
  const top = governing(drawn, q, line);
  const lift = top.level - drive.wasteValve;
  const head = lift + top.loss;
  const fullHead = outlet - drive.wasteValve + line.lossFactor * loss.headLoss(q);
  const backHead = destination.vented ? head : fullHead;
  write('governing-lift', lift);
  write('delivery', q);
  write('delivery-head', head);
  write('friction', top.loss);
  write('friction-share', lift > 0 ? top.loss / lift : 0);
  write('lift-over-fall', drive.fall > 0 ? head / drive.fall : 0);
  write('back-pressure-ratio', drive.fall > 0 ? backHead / drive.fall : 0);
  write('back-pressure-head', backHead);
  write('crest-head', crestHead(drawn, q, line));
}
