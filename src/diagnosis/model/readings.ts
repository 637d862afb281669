import type { CubicMetresPerSecond, Metres, Ratio, Seconds } from '../../units/quantity.ts';

/** Whether a ram beats, stands with its waste valve open and pours, or stands with it shut. */
export type RamState = 'runs' | 'stopped-open' | 'stopped-shut';

/** What was read at one time at one ram; null for what was not. Heads and levels over the waste valve's outlet. */
export interface Readings {
  readonly state: RamState | null;
  readonly beatsPerMinute: number | null;
  readonly waste: CubicMetresPerSecond | null;
  readonly deliveryAtPump: CubicMetresPerSecond | null;
  readonly deliveryAtTank: CubicMetresPerSecond | null;
  /** What of the water that leaves the pump arrives, from both buckets; see `withDerived`. */
  readonly arrives: Ratio | null;
  /** A gauge at the air chamber. */
  readonly gaugeRunning: Metres | null;
  readonly gaugeRest: Metres | null;
  /** Running less at rest, from one gauge: what the delivery line's friction takes; see `withDerived`. */
  readonly gaugeFriction: Metres | null;
  readonly gaugeSwing: Metres | null;
  /** Water at the drive pipe's inlet. */
  readonly level: Metres | null;
  /** Water that stands over the waste valve's outlet. */
  readonly tailWater: Metres | null;
  /** Out of the shut waste valve with the drive valve open. */
  readonly trickle: CubicMetresPerSecond | null;
  /** Out of body or snifter at rest, beside the waste valve. */
  readonly drip: CubicMetresPerSecond | null;
  /** Out of the waste valve that sticks open. */
  readonly pour: CubicMetresPerSecond | null;
  /** Back through the check valve into the opened body, drive valve shut. */
  readonly backflow: CubicMetresPerSecond | null;
  /** Beats a minute after the waste valve was held down for a minute. */
  readonly beatsAfterFlush: number | null;
  /** Standard deviation of the beat over its mean. */
  readonly jitter: Ratio | null;
  readonly stoppedAfter: Seconds | null;
  /** Whether it runs with the delivery valve nearly shut: 1 or 0. */
  readonly runsThrottled: Ratio | null;
  /** Whether the delivery line, filled against a shut valve at the pump, keeps its water: 1 or 0. */
  readonly lineHolds: Ratio | null;
  /** What was noticed beside the readings. */
  readonly signs: readonly Sign[];
}

/** What somebody notices without measuring. */
export type Sign =
  | 'knocks'
  | 'spits-air'
  | 'irregular-beat'
  | 'standpipe-spills'
  | 'standpipe-sinks'
  | 'drips-at-body'
  | 'trickles-at-rest';

/** A reading that is a number. */
export type Channel = Exclude<keyof Readings, 'state' | 'signs'>;

export const noReadings: Readings = {
  state: null,
  beatsPerMinute: null,
  waste: null,
  deliveryAtPump: null,
  deliveryAtTank: null,
  arrives: null,
  gaugeRunning: null,
  gaugeRest: null,
  gaugeFriction: null,
  gaugeSwing: null,
  level: null,
  tailWater: null,
  trickle: null,
  drip: null,
  pour: null,
  backflow: null,
  beatsAfterFlush: null,
  jitter: null,
  stoppedAfter: null,
  runsThrottled: null,
  lineHolds: null,
  signs: [],
};

/** The state that the readings give away where nobody said it. */
export function stateOf(readings: Readings): RamState | null {
  if (readings.state !== null) return readings.state;
  if (readings.beatsPerMinute !== null && readings.beatsPerMinute > 0) return 'runs';
  return readings.pour !== null && readings.pour > 0 ? 'stopped-open' : null;
}

/**
 * Readings with what follows from two of them: both gauges give the friction better than each alone, since the gauge's own
 * error is in both; both buckets give the share that arrives.
 */
export function withDerived(readings: Readings): Readings {
  const { gaugeRunning, gaugeRest, deliveryAtPump, deliveryAtTank } = readings;
  const both = gaugeRunning !== null && gaugeRest !== null;
  const buckets = deliveryAtPump !== null && deliveryAtTank !== null && deliveryAtPump > 0;
  return {
    ...readings,
    gaugeFriction: both ? Math.max(0, gaugeRunning - gaugeRest) : null,
    arrives: buckets ? deliveryAtTank / deliveryAtPump : null,
  };
}

/** How a channel is compared: by its logarithm above a floor, by its difference, or as yes and no. */
export interface Doubt {
  readonly scale: 'logarithm' | 'difference' | 'yes-no';
  /** Standard deviation beside a record of the same ram when it ran well, and without one. */
  readonly withRecord: number;
  readonly without: number;
  /** Least value that counts in the logarithm, as a share of the healthy ram's own `floorOf`. */
  readonly floor: number;
  readonly floorOf: 'itself' | 'intake' | 'lift' | 'one';
}

const log = (withRecord: number, without: number, floor: number, floorOf: Doubt['floorOf']): Doubt => ({
  scale: 'logarithm',
  withRecord,
  without,
  floor,
  floorOf,
});
const difference = (deviation: Metres): Doubt => ({
  scale: 'difference',
  withRecord: deviation,
  without: deviation,
  floor: 0,
  floorOf: 'one',
});
/** How often a yes is a no. */
const yesNo: Doubt = { scale: 'yes-no', withRecord: 0.05, without: 0.05, floor: 0, floorOf: 'one' };

/**
 * Doubts of readings, model and bucket together.
 *
 * Beat, waste, delivery, gauge, swing and level: from comparing two simulations of many rams with and without a record of
 * the same ram; the others: common practice, no source.
 */
export const DOUBTS: Readonly<Record<Channel, Doubt>> = {
  beatsPerMinute: log(0.05, 0.15, 0.05, 'itself'),
  waste: log(0.06, 0.12, 0.02, 'itself'),
  deliveryAtPump: log(0.08, 0.25, 0.02, 'itself'),
  deliveryAtTank: log(0.08, 0.25, 0.02, 'itself'),
  arrives: log(0.11, 0.11, 0.02, 'one'),
  gaugeRunning: log(0.03, 0.04, 0.02, 'lift'),
  gaugeRest: log(0.03, 0.04, 0.02, 'lift'),
  gaugeFriction: log(0.35, 0.45, 0.004, 'lift'),
  gaugeSwing: log(0.4, 0.7, 0.003, 'lift'),
  level: difference(0.03),
  tailWater: difference(0.03),
  trickle: log(0.25, 0.35, 0.005, 'intake'),
  drip: log(0.3, 0.4, 0.005, 'intake'),
  pour: log(0.08, 0.15, 0.02, 'intake'),
  backflow: log(0.3, 0.35, 0.005, 'intake'),
  beatsAfterFlush: log(0.05, 0.15, 0.05, 'itself'),
  jitter: log(0.6, 0.7, 0.005, 'one'),
  stoppedAfter: log(1.8, 1.8, 1, 'one'),
  runsThrottled: yesNo,
  lineHolds: yesNo,
};

export const CHANNELS = Object.keys(DOUBTS) as readonly Channel[];

/** How often the state is told wrongly. */
export const MISREPORTED = 0.03;
