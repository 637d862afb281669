import { joukowskyHead } from '../../hydraulics/pressure-wave.ts';
import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { Z975 } from '../statistics/normal.ts';
import { TOLERANCES } from '../statistics/tolerances.ts';
import { DESTINATION_AT, type DestinationOutput, type OutputLayout, type SharedOutput } from './outputs.ts';
import { type Drive, runDestination, sharedFlows } from './run-delivery.ts';
import { type Drawn, drawnBy, runFeed } from './run-feed.ts';
import { clearance, type LineState, lossFactor } from './run-line.ts';
import { shutVelocity } from './shut-velocity.ts';
import { type DestinationModel, type SystemModel, type SystemState, UNBOUNDED } from './system-model.ts';

/** Standard deviation of a factor whose tolerance holds 95 times of a hundred. */
const deviationOf = (tolerance: Ratio): Ratio => tolerance / Z975;

const INTAKE_DEVIATION = deviationOf(TOLERANCES.intake.value);
const WAVE_DEVIATION = deviationOf(TOLERANCES.wave.value);

/** What the pump takes: as set, or the most that source, line and pump allow, but never less than it needs to run. */
function intakeOf(
  model: SystemModel,
  most: CubicMetresPerSecond,
  off: Ratio,
): { readonly taken: CubicMetresPerSecond; readonly needed: CubicMetresPerSecond } {
  const { intakeSet, intakeLeast, intakeMost } = model.behaviour;
  const factor = Math.max(0, 1 + INTAKE_DEVIATION * off);
  if (intakeSet !== null) return { taken: factor * intakeSet, needed: factor * intakeSet };
  const needed = factor * intakeLeast;
  // The most that can be set may be no number at all.
  return { taken: Math.max(needed, Math.min(intakeMost < UNBOUNDED ? factor * intakeMost : intakeMost, most)), needed };
}

/** Delivery head that the wave reaches in one state; without end where nothing is known of the wave. */
function reachOf({ wave, pumps }: SystemModel, flow: CubicMetresPerSecond, at: { fall: Metres; off: Ratio }): Metres {
  if (wave === null || flow <= 0) return Number.POSITIVE_INFINITY;
  const velocityChange = wave.velocity ?? shutVelocity({ driveFlow: flow / pumps, bore: wave.bore });
  const rise = joukowskyHead({ waveSpeed: wave.speed, velocityChange });
  return Math.max(0, at.fall) + rise * Math.max(0, 1 + WAVE_DEVIATION * at.off);
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
  const { taken: intake, needed } = intakeOf(model, Math.min(forPump, limit), state.intake);
  const flow = Math.min(intake, forPump, limit);
  const left = Math.max(0, available - drawn.open);
  // A flow that nothing bounds is not known: heads are then those at rest.
  const known = flow < UNBOUNDED ? flow : 0;
  const { level: runningLevel, spill } = standing(model, source, { line, flow: known });
  const fall = runningLevel - wasteValve;
  const supplyClearance = clearance(source, known, model.supply?.highPlaces ?? [], line);
  const leastFall = model.limits.leastFall(state.valve);
  const beats = fall >= leastFall && left >= needed && limit >= needed && supplyClearance >= 0;
  const efficiencyAt = model.behaviour.efficiencyFor(state.efficiency, { flow: known, fall });
  write('fall-at-rest', source - wasteValve);
  write('fall', fall);
  write('drive-flow', intake);
  write('running-flow', flow);
  write('supply-limit', limit);
  write('for-pump', forPump);
  write('left-for-pump', left);
  write('efficiency', efficiencyAt(model.designHead));
  write('running-level', runningLevel);
  write('over-inlet', runningLevel - standpipeAt(model, ground, 'inletHeight'));
  write('freeboard', standpipeAt(model, ground, 'topHeight') - source);
  write('supply-clearance', supplyClearance);
  write('spill', spill);
  write('intake-margin', left < UNBOUNDED ? left - needed : 0);
  write('supply-margin', limit < UNBOUNDED ? limit - needed : 0);
  write('fall-margin', fall - leastFall);
  write('beats', beats ? 1 : 0);
  return {
    flow: known,
    fall,
    efficiencyAt,
    wasteValve,
    source,
    beats,
    stopsDry: model.each.modelled !== null,
    reach: reachOf(model, known, { fall, off: state.wave }),
    leastPushBack: model.limits.leastPushBack(Math.max(0, fall), state.valve),
  };
}

/**
 * The level in the standpipe while water flows, and what runs over. It cannot stand above the standpipe's top: a supply line that
 * would bring it higher brings what the head down to the top drives, and the rest spills.
 */
function standing(
  model: SystemModel,
  source: Metres,
  { line, flow }: { readonly line: LineState; readonly flow: CubicMetresPerSecond },
): { readonly level: Metres; readonly spill: CubicMetresPerSecond } {
  const { supply, standpipe } = model;
  const level = source - line.lossFactor * (supply?.loss.headLoss(flow) ?? 0);
  const top = standpipe && (line.ground[standpipe.node] ?? 0) + standpipe.topHeight;
  if (top === null || level <= top) return { level, spill: 0 };
  const brought = supply === null ? flow : supply.loss.flowFor((source - top) / line.lossFactor);
  return { level: top, spill: Math.max(0, brought - flow) };
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
  const lineOf = ({ lossDoubt }: DestinationModel): LineState => ({
    ground,
    lossFactor: lossFactor(lossDoubt, state.lineLoss),
  });
  const shared = sharedFlows(model.destinations, drive, lineOf);
  model.destinations.forEach((destination, i) => {
    const line = lineOf(destination);
    const start = layout.startOf(i);
    const write = (name: DestinationOutput, value: number) => {
      out[start + DESTINATION_AT[name]] = value;
    };
    runDestination(destination, drive, { line, columnBreaks: model.columnBreaks, shared: shared[i] ?? null, write });
  });
  model.troughs.forEach((trough, i) => {
    out[layout.trough(i, 'below-source')] = drive.source - valueAt(ground, trough.node) - trough.valveHeight;
  });
}
