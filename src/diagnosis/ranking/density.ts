import { COLUMNS, type Draws } from '../model/draws.ts';
import { CHANNELS, type Channel, DOUBTS, type Doubt, type Readings } from '../model/readings.ts';

/** One channel ready to be compared: where it stands, how it is measured, and what it is measured against. */
export interface Measure {
  readonly channel: Channel;
  readonly column: number;
  readonly doubt: Doubt;
  readonly deviation: number;
  /** Least value that counts. */
  readonly floor: number;
  /** What the record says of it; null without. */
  readonly record: number | null;
  /** What a sound ram shows; null where a sound ram shows nothing. */
  readonly well: number | null;
}

/** Share of readings that are plain mistakes, and how much wider those lie. */
const MISTAKES = 0.03;
const MISTAKE_WIDTH = 6;
const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

/** How likely a reading is that a cause says should not be there at all, in each scale's own measure. */
export const UNEXPECTED = 0.05;

export function measureOf(channel: Channel, draws: Draws, record: Readings | null): Measure {
  const doubt = DOUBTS[channel];
  const recorded = record === null ? null : recordOf(channel, record);
  const { well } = draws;
  const ofIntake = (well.waste ?? 0) + (well.deliveryAtPump ?? 0);
  const scale = { itself: wellOf(channel, well) ?? 1, intake: ofIntake, lift: draws.field.lift, one: 1 }[doubt.floorOf];
  return {
    channel,
    column: CHANNELS.indexOf(channel),
    doubt,
    deviation: recorded === null ? doubt.without : doubt.withRecord,
    floor: Math.max(Number.MIN_VALUE, doubt.floor * scale),
    record: recorded,
    well: recorded ?? wellOf(channel, well),
  };
}

/** A bucket at the pump tells what a sound line brings to the tank, and the other way round. */
function recordOf(channel: Channel, record: Readings): number | null {
  if (channel === 'deliveryAtPump') return record.deliveryAtPump ?? record.deliveryAtTank;
  if (channel === 'deliveryAtTank') return record.deliveryAtTank ?? record.deliveryAtPump;
  if (channel === 'beatsAfterFlush') return record.beatsPerMinute;
  return record[channel];
}

const wellOf = (channel: Channel, well: Readings): number | null =>
  channel === 'jitter' ? USUAL_JITTER : well[channel];
const USUAL_JITTER = 0.02;

/** What a made-up ram under a cause would show here: the record's own figure, changed as the made-up ram changed. */
export function predicted(measure: Measure, fault: number, sound: number): number {
  const { record, doubt } = measure;
  if (record === null || Number.isNaN(fault) || Number.isNaN(sound)) return fault;
  if (doubt.scale === 'difference') return record + fault - sound;
  return sound > 0 && record > 0 ? (record * fault) / sound : fault;
}

export const predictedAt = (measure: Measure, draws: Draws, table: Float64Array, row: number): number =>
  predicted(
    measure,
    table[row * COLUMNS + measure.column] as number,
    draws.sound[row * COLUMNS + measure.column] as number,
  );

/** How likely a reading is where another value was expected. */
export function density(measure: Measure, reading: number, expected: number): number {
  if (Number.isNaN(expected)) return UNEXPECTED;
  if (measure.doubt.scale === 'yes-no') return reading === expected ? 1 - measure.deviation : measure.deviation;
  const z = apart(measure, reading, expected) / measure.deviation;
  const wide = z / MISTAKE_WIDTH;
  const near = (1 - MISTAKES) * Math.exp(-(z * z) / 2);
  const far = (MISTAKES / MISTAKE_WIDTH) * Math.exp(-(wide * wide) / 2);
  return (near + far) / (measure.deviation * ROOT_TWO_PI);
}

/** Distance of two values in the channel's own scale. */
export function apart(measure: Measure, one: number, other: number): number {
  if (measure.doubt.scale !== 'logarithm') return one - other;
  return Math.log(Math.max(one, measure.floor) / Math.max(other, measure.floor));
}

/** Something else: often as when it is well, often widely off, sometimes anything. */
const ELSE = { well: 0.4, wide: 0.4, anything: 0.2 } as const;
/** Width in logarithms, and range of anything. */
const WIDE = 0.7;
const ANYTHING = 8;
/** Width of a level that is widely off, as a share of the lift. */
const WIDE_LEVEL = 0.04;

export function densityElse(measure: Measure, reading: number, draws: Draws): number {
  if (measure.doubt.scale === 'yes-no') return 1 / 2;
  if (measure.well === null) return 1 / ANYTHING;
  const width = measure.doubt.scale === 'difference' ? WIDE_LEVEL * draws.field.lift : WIDE;
  const z = apart(measure, reading, measure.well) / width;
  const wide = Math.exp(-(z * z) / 2) / (width * ROOT_TWO_PI);
  const anything = measure.doubt.scale === 'difference' ? 1 / draws.field.lift : 1 / ANYTHING;
  return ELSE.well * density(measure, reading, measure.well) + ELSE.wide * wide + ELSE.anything * anything;
}
