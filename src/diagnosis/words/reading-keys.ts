import { LITRE_M3, MINUTE_S } from '../../units/factor.ts';
import type { Channel, Sign } from '../model/readings.ts';

/** How a reading is called in files, and what one of its units is in SI. */
export interface ReadingKey {
  readonly channel: Channel;
  readonly key: string;
  readonly factor: number;
  readonly least: number;
  readonly most: number;
}

const L_PER_MIN = LITRE_M3 / MINUTE_S;
const flow = (channel: Channel, key: string): ReadingKey => ({
  channel,
  key,
  factor: L_PER_MIN,
  least: 0,
  most: 1e6,
});
const plain = (channel: Channel, key: string, most: number, least = 0): ReadingKey => ({
  channel,
  key,
  factor: 1,
  least,
  most,
});

/** Keys of readings in files, delivery apart: it says where it was read. */
export const READING_KEYS: readonly ReadingKey[] = [
  plain('beatsPerMinute', 'beats_per_min', 1000),
  flow('waste', 'waste_L_per_min'),
  plain('gaugeRunning', 'gauge_running_m', 5000, -10),
  plain('gaugeRest', 'gauge_rest_m', 5000, -10),
  plain('gaugeSwing', 'gauge_swing_m', 5000),
  plain('level', 'level_m', 200, -10),
  plain('tailWater', 'tail_water_m', 200),
  flow('trickle', 'trickle_at_rest_L_per_min'),
  flow('drip', 'drip_at_body_L_per_min'),
  flow('pour', 'pour_L_per_min'),
  flow('backflow', 'backflow_L_per_min'),
  plain('beatsAfterFlush', 'beats_after_flush_per_min', 1000),
  plain('jitter', 'jitter', 10),
  plain('stoppedAfter', 'stopped_after_s', 1e9),
];

/** Delivery: one figure with the place where it was read, or a second one from the tank. */
export const DELIVERY_KEY = 'delivery_L_per_min';
export const READ_AT_KEY = 'delivery_read_at';
export const TANK_KEY = 'delivery_at_tank_L_per_min';
export const DELIVERY: ReadingKey = flow('deliveryAtPump', DELIVERY_KEY);

/** Readings that are yes or no. */
export const YES_NO_KEYS: readonly { readonly channel: Channel; readonly key: string }[] = [
  { channel: 'runsThrottled', key: 'runs_throttled' },
  { channel: 'lineHolds', key: 'line_holds' },
];

export const SIGNS: readonly Sign[] = [
  'knocks',
  'spits-air',
  'irregular-beat',
  'standpipe-spills',
  'standpipe-sinks',
  'drips-at-body',
  'trickles-at-rest',
];

export const STATES = ['runs', 'stopped-open', 'stopped-shut'] as const;
