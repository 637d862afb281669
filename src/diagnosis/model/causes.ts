import { GRAVITY } from '../../hydraulics/gravity.ts';
import { atmosphericHead } from '../../ram/cycle/air.ts';
import { boreArea } from '../../ram/cycle/ram-system.ts';
import type { Ratio, Seconds } from '../../units/quantity.ts';
import type { FieldRam } from './field-ram.ts';
import type { Sign } from './readings.ts';

/** Names of what can be at work; other programs read them. */
export type CauseCode =
  | 'healthy'
  | 'level-sunk'
  | 'valve-heavy'
  | 'valve-light'
  | 'seat-leak'
  | 'body-leak'
  | 'check-leak'
  | 'check-slow'
  | 'air-in-water'
  | 'air-pocket'
  | 'chamber-empty'
  | 'strainer-clogged'
  | 'outlet-drowned'
  | 'delivery-throttled'
  | 'delivery-summit'
  | 'delivery-leak'
  | 'no-back-pressure'
  | 'drive-pipe-soft'
  | 'something-else';

export type FaultCode = Exclude<CauseCode, 'something-else'>;

/** One thing that can be wrong, as a change of the ram's own numbers. */
export interface Cause {
  readonly code: FaultCode;
  /** Chance before anything is read, as a weight beside the others; the user may change it. */
  readonly prior: number;
  /** Severities, equally likely by their logarithm. What they mean is what `apply` does with them. */
  readonly severity: { readonly least: number; readonly most: number };
  apply(field: FieldRam, severity: number, other: Ratio): FieldRam;
  /** Usual jitter of the beat. Common practice, no source. */
  readonly jitter: Ratio;
  /** Usual time from a restart to standing still; null where it tells nothing. Common practice, no source. */
  readonly stopsAfter: Seconds | null;
  /** Whether holding the waste valve down for a minute cures it for a while. */
  readonly flushed: boolean;
  /** Chance of each sign, where it is not the usual one. Common practice, no source. */
  readonly signs: Partial<Readonly<Record<Sign, Ratio>>>;
}

/** Chance of a sign under a cause that has nothing to do with it. */
export const SIGN_BY_CHANCE: Readonly<Record<Sign, Ratio>> = {
  knocks: 0.08,
  'spits-air': 0.04,
  'irregular-beat': 0.1,
  'standpipe-spills': 0.15,
  'standpipe-sinks': 0.05,
  'drips-at-body': 0.05,
  'trickles-at-rest': 0.08,
};

/** Chance of the signs when something else is at work. */
export const SIGN_UNKNOWN: Ratio = 0.2;

const usual = { jitter: 0.02, stopsAfter: null, flushed: false, signs: {} } as const;
const SECONDS = 15;
const HOUR = 3600;
const WEEK = 7 * 24 * HOUR;

const ramOf = (field: FieldRam, change: Partial<FieldRam['ram']>): FieldRam => ({
  ...field,
  ram: { ...field.ram, ...change },
});
const faultOf = (field: FieldRam, change: Partial<FieldRam['faults']>): FieldRam => ({
  ...field,
  faults: { ...field.faults, ...change },
});
const lineOf = (field: FieldRam, change: Partial<FieldRam['line']>): FieldRam => ({
  ...field,
  line: { ...field.line, ...change },
});
const weigh = (field: FieldRam, factor: number): FieldRam => ({
  ...field,
  closing: { ...field.closing, weightHead: field.closing.weightHead * factor },
});

/**
 * Speed of a pressure wave in water with a share of free air: 1/a² = 1/a₀² + ρ α/p.
 *
 * a₀ wave speed without air, m/s; ρ density, α volume share of air at p, p absolute pressure of the
 * fall at rest; p/ρ = g (H + 10.33).
 * Source: A. B. Wood, A Textbook of Sound, 1930, for a small share (from memory); isothermal.
 */
export function airySpeed(speed: number, share: Ratio, fall: number): number {
  const pressure = (fall + atmosphericHead) * GRAVITY;
  return 1 / Math.sqrt(1 / (speed * speed) + share / pressure);
}

/** Everything that is thought of, in one table. Priors: common practice, no source; severities reach from hardly seen to standing still. */
export const CAUSES: readonly Cause[] = [
  {
    ...usual,
    code: 'healthy',
    prior: 0.06,
    severity: { least: 1, most: 1 },
    apply: (field) => field,
  },
  {
    ...usual,
    code: 'level-sunk',
    prior: 0.14,
    // The fall that is left, as a share.
    severity: { least: 0.2, most: 0.92 },
    apply: (field, left) => ({ ...field, fall: field.fall * left }),
    stopsAfter: HOUR,
    signs: { 'spits-air': 0.35, 'standpipe-sinks': 0.85, 'irregular-beat': 0.25, 'standpipe-spills': 0.01 },
  },
  {
    ...usual,
    code: 'valve-heavy',
    prior: 0.07,
    // The weight (or the stroke's hold) as a multiple.
    severity: { least: 1.2, most: 4 },
    apply: weigh,
    stopsAfter: HOUR,
    signs: { 'standpipe-sinks': 0.5, 'standpipe-spills': 0.03, knocks: 0.15 },
  },
  {
    ...usual,
    code: 'valve-light',
    prior: 0.05,
    severity: { least: 0.2, most: 0.8 },
    apply: weigh,
    stopsAfter: SECONDS,
    signs: { 'standpipe-spills': 0.5, 'standpipe-sinks': 0.01 },
  },
  {
    ...usual,
    code: 'seat-leak',
    prior: 0.09,
    severity: { least: 0.006, most: 0.06 },
    apply: (field, seatLeak) => faultOf(field, { seatLeak }),
    stopsAfter: SECONDS,
    signs: { 'trickles-at-rest': 0.9 },
  },
  {
    ...usual,
    code: 'body-leak',
    prior: 0.04,
    severity: { least: 0.006, most: 0.06 },
    apply: (field, bodyLeak) => faultOf(field, { bodyLeak }),
    stopsAfter: SECONDS,
    signs: { 'drips-at-body': 0.8 },
  },
  {
    ...usual,
    code: 'check-leak',
    prior: 0.1,
    severity: { least: 0.001, most: 0.04 },
    apply: (field, checkLeak) => faultOf(field, { checkLeak }),
    stopsAfter: SECONDS,
  },
  {
    ...usual,
    code: 'check-slow',
    prior: 0.04,
    // Added to its lag, s.
    severity: { least: 0.01, most: 0.06 },
    apply: (field, more) => ramOf(field, { checkLag: field.ram.checkLag + more }),
    jitter: 0.03,
    signs: { knocks: 0.3 },
  },
  {
    ...usual,
    code: 'air-in-water',
    prior: 0.05,
    // Volume share of air.
    severity: { least: 0.0005, most: 0.015 },
    apply: (field, share) => ramOf(field, { waveSpeed: airySpeed(field.ram.waveSpeed, share, field.fall) }),
    jitter: 0.08,
    flushed: false,
    signs: { 'spits-air': 0.6, 'irregular-beat': 0.5 },
  },
  {
    ...usual,
    code: 'air-pocket',
    prior: 0.06,
    // Its volume as a share of the drive pipe's.
    severity: { least: 0.0004, most: 0.009 },
    apply: (field, share) => faultOf(field, { airPocket: share * boreArea(field.ram.bore) * field.ram.length }),
    jitter: 0.06,
    flushed: true,
    signs: { 'spits-air': 0.4, 'irregular-beat': 0.35 },
  },
  {
    ...usual,
    code: 'chamber-empty',
    prior: 0.08,
    // Air that is left, as a share.
    severity: { least: 0.0025, most: 0.2 },
    apply: (field, left) => ({ ...field, airChamber: field.airChamber === null ? null : field.airChamber * left }),
    jitter: 0.04,
    stopsAfter: WEEK,
    signs: { knocks: 0.8, 'irregular-beat': 0.2 },
  },
  {
    ...usual,
    code: 'strainer-clogged',
    prior: 0.1,
    // Velocity heads added at the inlet.
    severity: { least: 6, most: 200 },
    apply: (field, more) => ramOf(field, { entranceLoss: field.ram.entranceLoss + more }),
    stopsAfter: WEEK,
    signs: { 'standpipe-spills': 0.3, 'standpipe-sinks': 0.02 },
  },
  {
    ...usual,
    code: 'outlet-drowned',
    prior: 0.04,
    // Water over the waste valve's outlet as a share of the fall.
    severity: { least: 0.05, most: 0.7 },
    apply: (field, share) => faultOf(field, { tailWater: share * field.fall }),
  },
  {
    ...usual,
    code: 'delivery-throttled',
    prior: 0.05,
    // Loss at the delivery of the sound ram as a share of the lift.
    severity: { least: 0.1, most: 8 },
    apply: (field, share) => lineOf(field, { throttle: (share * field.lift) / soundDelivery(field) ** 2 }),
    signs: { knocks: 0.15 },
  },
  {
    ...usual,
    code: 'delivery-summit',
    prior: 0.05,
    // Rise of the governing level as a share of the lift.
    severity: { least: 0.06, most: 0.6 },
    apply: (field, share) => ({ ...field, lift: field.lift * (1 + share) }),
    signs: { 'spits-air': 0.1 },
  },
  {
    ...usual,
    code: 'delivery-leak',
    prior: 0.07,
    // What is lost of the delivery; at rest the line may sink to the leak.
    severity: { least: 0.12, most: 0.98 },
    apply: (field, lost, other) => lineOf(field, { lost, sinksTo: other < STILL_FULL ? null : field.lift * other }),
  },
  {
    ...usual,
    code: 'no-back-pressure',
    prior: 0.06,
    // Level of the delivery that is left, as a share of the lift: an empty line or a break near by without friction, or a
    // low outlet or siphon at the end of the whole line.
    severity: { least: 0.03, most: 0.6 },
    apply: (field, left, other) => {
      const lift = field.lift * left;
      const near = other < NEAR_BREAK ? { headLoss: () => 0 } : {};
      return lineOf({ ...field, lift }, { sinksTo: lift, ...near });
    },
    jitter: 0.04,
    stopsAfter: SECONDS,
  },
  {
    ...usual,
    code: 'drive-pipe-soft',
    prior: 0.03,
    // Wave speed that is left, as a share.
    severity: { least: 0.1, most: 0.6 },
    apply: (field, left) => ramOf(field, { waveSpeed: field.ram.waveSpeed * left }),
    jitter: 0.04,
    signs: { knocks: 0.25 },
  },
];

/** How often a leaking line is still full when the gauge is read at rest. */
const STILL_FULL: Ratio = 0.5;

/** How often the break is near the pump, or the line empty. */
const NEAR_BREAK: Ratio = 0.5;

/** Chance, beside the others, that it is nothing of these. */
export const PRIOR_ELSE = 0.05;

export function causeOf(code: FaultCode): Cause {
  const found = CAUSES.find((cause) => cause.code === code);
  if (found === undefined) throw new RangeError(`found ${code}, expected a cause of the table`);
  return found;
}

/** Delivery that the throttle's severity is counted by; kept above 0. */
function soundDelivery(field: FieldRam): number {
  return Math.max(LEAST_DELIVERY, field.usualDelivery);
}
const LEAST_DELIVERY = 1e-8;
