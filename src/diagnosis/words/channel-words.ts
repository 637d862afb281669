import { INCH_M, METRE_HEAD_PA } from '../../units/factor.ts';
import type { QuantityKind, UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { type Channel, DOUBTS, type RamState, type Sign } from '../model/readings.ts';
import type { PlanRemedy } from '../plan-remedy.ts';

/** A reading as the page asks for it. */
export interface ChannelWords {
  readonly channel: Channel;
  readonly label: string;
  readonly kind: QuantityKind;
  /** What one of its SI units is in the SI unit of the kind: a gauge's head is asked as a pressure. */
  readonly factor: number;
  readonly note?: string;
  /** States in which it can be read; all when not given. */
  readonly when?: readonly RamState[];
}

const RUNS: readonly RamState[] = ['runs'];

/** Readings in the order in which somebody comes by them. */
export const CHANNEL_WORDS: readonly ChannelWords[] = [
  {
    channel: 'level',
    label: 'Water at the drive pipe’s inlet',
    kind: 'height',
    factor: 1,
    note: 'Above the waste valve’s outlet.',
  },
  {
    channel: 'tailWater',
    label: 'Water over the waste valve',
    kind: 'height',
    factor: 1,
    note: '0 when it hangs free.',
  },
  { channel: 'beatsPerMinute', label: 'Beats a minute', kind: 'ratio', factor: 1, when: RUNS },
  { channel: 'waste', label: 'Waste water', kind: 'flow', factor: 1, note: 'Bucket and watch.', when: RUNS },
  { channel: 'deliveryAtPump', label: 'Delivery, caught at the pump', kind: 'flow', factor: 1, when: RUNS },
  { channel: 'deliveryAtTank', label: 'Delivery, caught at the tank', kind: 'flow', factor: 1, when: RUNS },
  {
    channel: 'gaugeRunning',
    label: 'Gauge, running',
    kind: 'pressure',
    factor: METRE_HEAD_PA,
    note: 'At the air chamber.',
    when: RUNS,
  },
  { channel: 'gaugeRest', label: 'Gauge, at rest', kind: 'pressure', factor: METRE_HEAD_PA },
  { channel: 'gaugeSwing', label: 'Swing of the gauge in a beat', kind: 'pressure', factor: METRE_HEAD_PA, when: RUNS },
  { channel: 'pour', label: 'What pours out', kind: 'flow', factor: 1, when: ['stopped-open'] },
  {
    channel: 'trickle',
    label: 'What trickles from the shut waste valve',
    kind: 'flow',
    factor: 1,
    when: ['runs', 'stopped-shut'],
  },
  { channel: 'drip', label: 'What leaks at body or snifter', kind: 'flow', factor: 1, when: ['runs', 'stopped-shut'] },
  {
    channel: 'backflow',
    label: 'What comes back through the check valve',
    kind: 'flow',
    factor: 1,
    note: 'Into the opened body, drive valve shut and pressure let off.',
  },
  { channel: 'beatsAfterFlush', label: 'Beats a minute after flushing', kind: 'ratio', factor: 1, when: RUNS },
  { channel: 'stoppedAfter', label: 'It stops again after', kind: 'duration', factor: 1 },
];

/** A reading with its unit. */
export function channelValue(channel: Channel, value: number, units: UnitSystem): string {
  const row = CHANNEL_WORDS.find((one) => one.channel === channel);
  if (row === undefined) return value >= 1 / 2 ? 'yes' : 'no';
  const written = writeQuantity(value * row.factor, row.kind, units);
  return row.kind === 'ratio' ? `${Math.round(value)} a minute` : written;
}

export const STATE_WORDS: Readonly<Record<RamState, string>> = {
  runs: 'It runs, but brings too little',
  'stopped-shut': 'It stands, waste valve shut',
  'stopped-open': 'It stands, waste valve open, and pours',
};

export const SIGN_WORDS: Readonly<Record<Sign, string>> = {
  knocks: 'It knocks',
  'spits-air': 'It spits air',
  'irregular-beat': 'Its beat is irregular',
  'standpipe-spills': 'The standpipe spills',
  'standpipe-sinks': 'The standpipe sinks',
  'drips-at-body': 'The body or snifter drips',
  'trickles-at-rest': 'The shut waste valve trickles',
};

export const PLAN_REMEDY_WORDS: Readonly<Record<PlanRemedy['code'], string>> = {
  'vent-delivery': 'Give the delivery line vents in the plan',
  'take-less': 'Let the pump take a fifth less in the plan',
  'steel-drive': 'Lay the drive pipe in steel in the plan',
};

const PERCENT = 100;
const CENTIMETRE = 0.01;

/** How well a reading is taken to be known, as it stands beside its field. */
export function doubtWords(channel: Channel, beside: 'record' | 'none', units: UnitSystem): string {
  const { scale, withRecord, without } = DOUBTS[channel];
  const doubt = beside === 'record' ? withRecord : without;
  if (scale === 'yes-no') return '';
  if (scale === 'logarithm') return `Taken as known to ± ${Math.round(PERCENT * doubt)} %.`;
  const inches = `${(doubt / INCH_M).toFixed(1)} in`;
  return `Taken as known to ± ${units === 'us' ? inches : `${Math.round(doubt / CENTIMETRE)} cm`}.`;
}
