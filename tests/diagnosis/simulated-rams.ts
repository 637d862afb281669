import { drawsFor } from '../../src/diagnosis/diagnose.ts';
import { CAUSES, type Cause, type FaultCode } from '../../src/diagnosis/model/causes.ts';
import type { Draws } from '../../src/diagnosis/model/draws.ts';
import { type FieldRam, guessedDelivery, readingsOf, soundLine } from '../../src/diagnosis/model/field-ram.ts';
import {
  type Channel,
  DOUBTS,
  noReadings,
  type RamState,
  type Readings,
  withDerived,
} from '../../src/diagnosis/model/readings.ts';
import { type Seeded, seeded } from '../../src/diagnosis/model/seeded.ts';
import { type Ranked, rank } from '../../src/diagnosis/ranking/ranking.ts';
import { pipeFlow } from '../../src/hydraulics/pipe-flow.ts';
import { soundRam } from '../../src/ram/cycle/ram-faults.ts';
import { balancedWeight, terminalVelocity } from '../../src/ram/cycle/ram-system.ts';
import { settledRun } from '../../src/ram/transient/settled-run.ts';
import { transientRun } from '../../src/ram/transient/transient-run.ts';

/** Made-up rams whose readings come from the transient, never from the closed form that ranks. */

const LITRES_A_MINUTE = 60_000;
const STEEL = 1390;
const POLYETHYLENE_ROUGHNESS = 1.5e-6;
const COLD_WATER = 1.3e-6;

/** The ram of the signatures: 52.5 mm, 18 m, 3 m fall, 24 m lift. */
export const R50: FieldRam = fieldOf({
  bore: 0.0525,
  length: 18,
  fall: 3,
  lift: 24,
  weightHead: 0.375,
  stroke: 0.008,
  checkLag: 0.004,
  airChamber: 0.008,
  wasteValveLoss: 6,
  checkValveLoss: 4,
  darcyFactor: 0.028,
  line: { length: 200, bore: 0.0266 },
});

interface Shape {
  readonly bore: number;
  readonly length: number;
  readonly fall: number;
  readonly lift: number;
  readonly weightHead: number;
  readonly stroke: number;
  readonly checkLag: number;
  readonly airChamber: number;
  readonly wasteValveLoss: number;
  readonly checkValveLoss: number;
  readonly darcyFactor: number;
  readonly line: { readonly length: number; readonly bore: number };
}

export function fieldOf(shape: Shape): FieldRam {
  const flow = pipeFlow({ ...shape.line, roughness: POLYETHYLENE_ROUGHNESS, k: 1.5, viscosity: COLD_WATER });
  const field: FieldRam = {
    ram: {
      bore: shape.bore,
      length: shape.length,
      waveSpeed: STEEL,
      darcyFactor: shape.darcyFactor,
      entranceLoss: 0.5,
      bendLoss: 1,
      wasteValveLoss: shape.wasteValveLoss,
      checkValveLoss: shape.checkValveLoss,
      checkLag: shape.checkLag,
    },
    closing: { kind: 'stroke', weightHead: shape.weightHead, stroke: shape.stroke },
    faults: soundRam,
    fall: shape.fall,
    lift: shape.lift,
    airChamber: shape.airChamber,
    line: soundLine((q) => flow.headLoss(q)),
    usualDelivery: 0,
  };
  return { ...field, usualDelivery: guessedDelivery(field) };
}

const between = (random: Seeded, least: number, most: number) => least * (most / least) ** random.uniform();

/** A sound ram such as people build: length and size by the usual rules, its valve set between light and heavy. */
export function madeRam(random: Seeded): FieldRam {
  const bores = [0.0266, 0.0351, 0.0409, 0.0525, 0.0779];
  const bore = bores[Math.floor(random.uniform() * bores.length)] ?? 0.0525;
  const fall = between(random, 1.2, 6);
  const length = Math.min(800 * bore, Math.max(150 * bore, fall * between(random, 5, 8)));
  const lift = Math.max(8, fall * between(random, 4.5, 10));
  const shape: Shape = {
    bore,
    length,
    fall,
    lift,
    weightHead: 0.1,
    stroke: between(random, 0.005, 0.01),
    checkLag: between(random, 0.002, 0.006),
    airChamber: 0.01,
    wasteValveLoss: between(random, 5, 8),
    checkValveLoss: between(random, 3, 5),
    darcyFactor: between(random, 0.025, 0.032),
    line: { length: lift * between(random, 5, 12), bore: bore * between(random, 0.45, 0.6) },
  };
  const open = fieldOf(shape);
  const start = between(random, 0.45, 0.68) * terminalVelocity(open.ram, fall);
  const weighed = fieldOf({ ...shape, weightHead: balancedWeight(open.ram, start) });
  const beats = readingsOf(weighed).beatsPerMinute ?? 60;
  return { ...weighed, airChamber: (between(random, 40, 90) * weighed.usualDelivery * 60) / beats };
}

/** How finely a ram is simulated: on a grid that settles, or on a coarse one, six times as fast. */
export type Fineness = 'settled' | 'coarse';

/** Reaches of the coarse grid, from which the settled one starts too. */
const COARSE = 20;

/** Readings of a ram by simulation; what does not move follows from orifice and level. */
export function simulated(field: FieldRam, fineness: Fineness = 'settled'): Readings {
  const start = readingsOf(field);
  const { line } = field;
  const head = Math.max(field.lift, start.gaugeRunning ?? field.lift);
  const setup = {
    ram: field.ram,
    closing: field.closing,
    fall: field.fall,
    deliveryHead: head,
    airChamber: field.airChamber,
    standpipe: null,
    vapourHead: -10.2,
    faults: field.faults,
    deliveryLine: {
      length: 8 * field.lift,
      area: (Math.PI * (field.ram.bore / 2) ** 2) / 4,
      staticHead: field.lift,
      headLoss: (flow: number) => line.headLoss(flow) + line.throttle * flow * flow,
      startFlow: start.deliveryAtPump ?? 0,
    },
  };
  const run = fineness === 'settled' ? settledRun(setup, COARSE) : transientRun({ ...setup, reaches: COARSE });
  const state: RamState =
    run.stops === 'waste-valve-sticks-open'
      ? 'stopped-open'
      : run.stops === 'waste-valve-stays-shut'
        ? 'stopped-shut'
        : 'runs';
  const still = {
    ...noReadings,
    state,
    level: field.fall,
    tailWater: field.faults.tailWater,
    trickle: start.trickle,
    drip: start.drip,
  };
  const leaksBack = field.faults.checkLeak > 0 && state !== 'runs';
  const stands = line.sinksTo ?? field.lift;
  const gaugeRest = leaksBack ? Math.min(stands, field.fall) : stands;
  if (state === 'stopped-open') return { ...still, gaugeRest, trickle: null, drip: null, pour: run.driveFlow };
  if (state === 'stopped-shut') return { ...still, gaugeRest };
  const delivery = Math.max(0, run.delivery);
  return {
    ...still,
    gaugeRest,
    beatsPerMinute: run.beatsPerMinute,
    waste: run.driveFlow - delivery,
    deliveryAtPump: delivery,
    deliveryAtTank: delivery * (1 - line.lost),
    gaugeRunning: run.gaugeHead,
    gaugeSwing: run.chamberRipple,
  };
}

/** Readings with their noise: the bucket, the watch and the gauge err by their doubts beside a record. */
export function noisy(readings: Readings, channels: readonly Channel[], random: Seeded): Readings {
  const changed: Partial<Record<Channel, number>> = {};
  for (const channel of channels) {
    const value = readings[channel];
    if (value === null) continue;
    const { scale, withRecord } = DOUBTS[channel];
    const z = random.normal();
    changed[channel] = scale === 'logarithm' ? value * Math.exp(withRecord * z) : Math.max(0, value + withRecord * z);
  }
  return { ...noReadings, state: readings.state, ...changed };
}

/** What somebody with a bucket, a watch, a rule and a gauge brings from a first visit. */
export const FIRST_VISIT: readonly Channel[] = [
  'beatsPerMinute',
  'waste',
  'deliveryAtPump',
  'deliveryAtTank',
  'gaugeRunning',
  'gaugeRest',
  'gaugeSwing',
  'level',
  'pour',
  'trickle',
  'drip',
  'tailWater',
];

/** How well the parts of a ram are known to the one who asks: about what the ranking itself supposes. */
const UNKNOWN = { wasteValveLoss: 0.12, checkValveLoss: 0.15, checkLag: 0.25, weightHead: 0.08, airChamber: 0.25 };

/** The ram as its owner describes it. */
export function described(field: FieldRam, random: Seeded): FieldRam {
  const about = (value: number, doubt: number) => value * Math.exp(doubt * random.normal());
  const told: FieldRam = {
    ...field,
    ram: {
      ...field.ram,
      wasteValveLoss: about(field.ram.wasteValveLoss, UNKNOWN.wasteValveLoss),
      checkValveLoss: about(field.ram.checkValveLoss, UNKNOWN.checkValveLoss),
      checkLag: about(field.ram.checkLag, UNKNOWN.checkLag),
    },
    closing: { ...field.closing, weightHead: about(field.closing.weightHead, UNKNOWN.weightHead) },
    airChamber: field.airChamber === null ? null : about(field.airChamber, UNKNOWN.airChamber),
  };
  return { ...told, usualDelivery: guessedDelivery(told) };
}

export interface Case {
  readonly ram: number;
  readonly truth: FaultCode;
  readonly severity: number;
  readonly state: RamState | null;
  readonly withRecord: readonly Ranked[];
  readonly without: readonly Ranked[];
}

export function severityOf(cause: Cause, random: Seeded): number {
  return between(random, cause.severity.least, cause.severity.most);
}

/** Sound rams that run, with their records and how their owners describe them. */
export interface OwnedRam {
  readonly field: FieldRam;
  readonly record: Readings;
  readonly withRecord: Draws;
  readonly without: Draws;
}

export function ownedRam(random: Seeded, fineness: Fineness = 'settled'): OwnedRam {
  for (;;) {
    const field = madeRam(random);
    const well = simulated(field, fineness);
    if (well.state !== 'runs' || !((well.deliveryAtPump ?? 0) > 0)) continue;
    const record = { ...noReadings, state: well.state, ...onlyOf(well, FIRST_VISIT) };
    const told = described(field, random);
    return { field, record, withRecord: drawsFor(told, record), without: drawsFor(told, null) };
  }
}

/** A ram with its faults, simulated, read with noise, and ranked with its record and without. */
export function ranked(owned: OwnedRam, faulty: FieldRam, random: Seeded, fineness: Fineness = 'settled') {
  const now = withDerived(noisy(simulated(faulty, fineness), FIRST_VISIT, random));
  return {
    now,
    withRecord: rank(owned.withRecord, { record: withDerived(owned.record), now }),
    without: rank(owned.without, { record: null, now }),
  };
}

/** Every cause on so many seeded rams. */
export function simulatedCases(
  rams: number,
  seed: number,
  { causes = CAUSES, fineness = 'settled' }: { readonly causes?: readonly Cause[]; readonly fineness?: Fineness } = {},
): Case[] {
  const random = seeded(seed);
  const cases: Case[] = [];
  for (let ram = 0; ram < rams; ram += 1) {
    const owned = ownedRam(random, fineness);
    for (const cause of causes) {
      const severity = severityOf(cause, random);
      const { now, ...lists } = ranked(owned, cause.apply(owned.field, severity, random.uniform()), random, fineness);
      cases.push({ ram, truth: cause.code, severity, state: now.state, ...lists });
    }
  }
  return cases;
}

export function onlyOf(readings: Readings, channels: readonly Channel[]): Partial<Readings> {
  return Object.fromEntries(channels.map((channel) => [channel, readings[channel]]));
}

export const litres = (flow: number | null) => (flow ?? 0) * LITRES_A_MINUTE;
