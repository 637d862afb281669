import type { CubicMetresPerSecond, Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { OutputLayout, SharedOutput } from './outputs.ts';
import { type Drive, runDestination } from './run-delivery.ts';
import { type Drawn, drawnBy, runFeed } from './run-feed.ts';
import { clearance, type LineState, lossFactor } from './run-line.ts';
import { type SystemModel, type SystemState, UNBOUNDED } from './system-model.ts';

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
  const inlet = valueAt(line.ground, standpipe.node) + standpipe.inletHeight + standpipe.submergence;
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
  const source = valueAt(ground, model.source) + model.waterLevel;
  const wasteValve = valueAt(ground, model.pump) + model.wasteValveHeight;
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
  return standpipe === null ? 0 : valueAt(ground, standpipe.node) + standpipe[part];
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
    out[layout.trough(i, 'below-source')] = drive.source - valueAt(ground, trough.node) - trough.valveHeight;
  });
}
