import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { CubicMetresPerSecond, Metres, MetresPerSecond, Ratio, Seconds } from '../../units/quantity.ts';
import { terminalVelocity } from '../cycle/ram-system.ts';
import { rankineOf } from '../cycle/yield.ts';
import { settlingTime } from './air-chamber.ts';
import { type TransientSetup, TransientSystem } from './transient-system.ts';

export type TransientStop =
  | 'waste-valve-sticks-open'
  | 'waste-valve-stays-shut'
  | 'delivers-nothing'
  | 'standpipe-runs-empty';

/** What the simulation measured over whole beats, once it had settled. */
export interface TransientRun {
  readonly stops: TransientStop | null;
  readonly beatsPerMinute: number;
  readonly driveFlow: CubicMetresPerSecond;
  readonly delivery: CubicMetresPerSecond;
  readonly dAubuisson: Ratio;
  readonly rankine: Ratio;
  readonly highestHead: Metres;
  readonly lowestHead: Metres;
  /** Velocity of the water at the inlet as the waste valve seats, mean of the beats; null without a beat. */
  readonly shutVelocity: MetresPerSecond | null;
  /** Difference between the highest and lowest head in the air chamber. */
  readonly chamberRipple: Metres;
  /** Mean head in the air chamber, as a gauge there shows it. */
  readonly gaugeHead: Metres;
  /** Share of the time in which the head under the valves lay on the vapour's. */
  readonly boiling: Ratio;
  /** Level in the standpipe at the end. */
  readonly level: Metres;
  readonly beats: number;
  readonly nodeSteps: number;
}

/** Reaches into which the drive pipe is divided where the caller has no wish of his own. */
export const usualReaches = 40;

/**
 * Settling time and measured time: at least so many seconds, and so many time scales τ = L v_∞/(g H) of the column; with an
 * air chamber also so many of its own.
 */
const settling = { seconds: 8, scales: 10, chamber: 12 } as const;
const measured = { seconds: 12, scales: 20 } as const;
/** It runs when at least two beats end in this last part of the measured time. */
const lastPart = 1 / 3;

/** Runs a ram from rest until it has settled, then measures it over whole beats. */
export function transientRun(setup: TransientSetup): TransientRun {
  const system = new TransientSystem(setup);
  const dt = system.pipe.timeStep;
  const scale = columnTime(setup);
  const chamber = setup.airChamber === null ? 0 : settling.chamber * settlingTime;
  const skip = Math.ceil(Math.max(settling.seconds, settling.scales * scale, chamber) / dt);
  const steps = Math.ceil(Math.max(measured.seconds, measured.scales * scale) / dt);
  for (let i = 0; i < skip; i += 1) system.step();
  const record = measure(system, steps);
  return summary(setup, system, record, (skip + steps) * system.pipe.nodes);
}

/** τ = L v_∞/(g H), the time in which the column gets near its terminal velocity. */
function columnTime(setup: TransientSetup): Seconds {
  return (setup.ram.length * terminalVelocity(setup.ram, setup.fall)) / (GRAVITY * setup.fall);
}

interface Record {
  /** Whole beats and what flowed in them: velocity times time, m. */
  beats: number;
  time: Seconds;
  taken: number;
  delivered: number;
  /** Sum of the inlet's velocities at the closures. */
  shutSum: number;
  lateClosures: number;
  highest: Metres;
  lowest: Metres;
  chamberHighest: Metres;
  chamberLowest: Metres;
  chamberSum: number;
  steps: number;
  boiling: number;
  emptied: boolean;
}

function measure(system: TransientSystem, steps: number): Record {
  const dt = system.pipe.timeStep;
  const late = Math.floor(steps * (1 - lastPart));
  const record = emptyRecord(system);
  let closures = 0;
  let taken = 0;
  let delivered = 0;
  let start = 0;
  let widest = 0;
  const boilt = system.boilingSteps;
  for (let i = 0; i < steps; i += 1) {
    system.step();
    taken += system.inletVelocity * dt;
    delivered += system.pump.checkVelocity * dt;
    if (system.pump.head > record.highest) record.highest = system.pump.head;
    if (system.pump.head < record.lowest) record.lowest = system.pump.head;
    if (system.chamber.head > record.chamberHighest) record.chamberHighest = system.chamber.head;
    if (system.chamber.head < record.chamberLowest) record.chamberLowest = system.chamber.head;
    record.chamberSum += system.chamber.head;
    if (system.level <= 0) record.emptied = true;
    if (system.wasteValve.opening > widest) widest = system.wasteValve.opening;
    if (!system.wasteValve.seated) continue;
    const bounced = widest < openEnough;
    widest = 0;
    if (bounced) continue;
    if (i >= late) record.lateClosures += 1;
    record.shutSum += system.inletVelocity;
    if (closures === 0) {
      start = i;
      taken = 0;
      delivered = 0;
    }
    record.beats = closures;
    closures += 1;
    record.time = (i - start) * dt;
    record.taken = taken;
    record.delivered = delivered;
  }
  record.boiling = system.boilingSteps - boilt;
  record.steps = steps;
  return closures > 1 ? record : { ...record, beats: 0, time: steps * dt, taken, delivered };
}

/** A valve that did not open this far before it seated again has bounced, not beaten. */
const openEnough = 0.5;

function emptyRecord(system: TransientSystem): Record {
  return {
    beats: 0,
    time: 0,
    taken: 0,
    delivered: 0,
    shutSum: 0,
    lateClosures: 0,
    highest: system.pump.head,
    lowest: system.pump.head,
    chamberHighest: system.chamber.head,
    chamberLowest: system.chamber.head,
    chamberSum: 0,
    steps: 1,
    boiling: 0,
    emptied: false,
  };
}

const secondsPerMinute = 60;
/** Closures in the last part that show a ram at work. */
const closuresAtWork = 2;

function summary(setup: TransientSetup, system: TransientSystem, record: Record, nodeSteps: number): TransientRun {
  const area = system.pipe.area;
  const driveFlow = (area * record.taken) / record.time;
  const delivery = (area * record.delivered) / record.time;
  const dAubuisson = driveFlow > 0 ? (delivery * setup.deliveryHead) / (driveFlow * setup.fall) : 0;
  return {
    stops: stopOf(system, record, delivery),
    beatsPerMinute: (record.beats * secondsPerMinute) / record.time,
    driveFlow,
    delivery,
    dAubuisson,
    rankine: rankineOf(dAubuisson, setup.deliveryHead / setup.fall),
    highestHead: record.highest + system.datum,
    lowestHead: record.lowest + system.datum,
    shutVelocity: record.beats > 0 ? record.shutSum / (record.beats + 1) : null,
    chamberRipple: record.chamberHighest - record.chamberLowest,
    gaugeHead: record.chamberSum / record.steps + system.datum,
    boiling: record.boiling / record.steps,
    level: system.level + system.datum,
    beats: record.beats,
    nodeSteps,
  };
}

function stopOf(system: TransientSystem, record: Record, delivery: CubicMetresPerSecond): TransientStop | null {
  if (record.emptied) return 'standpipe-runs-empty';
  if (record.lateClosures < closuresAtWork) {
    return system.wasteValve.opening > 0 ? 'waste-valve-sticks-open' : 'waste-valve-stays-shut';
  }
  return delivery > 0 ? null : 'delivers-nothing';
}
