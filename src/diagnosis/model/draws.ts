import { CAUSES, type FaultCode } from './causes.ts';
import { type FieldRam, readingsOf } from './field-ram.ts';
import { CHANNELS, type RamState, type Readings } from './readings.ts';
import { type Seeded, seeded } from './seeded.ts';

/** Made-up rams like this one, each well and under every cause; computed once for a ram and used for every reading. */
export interface Draws {
  readonly field: FieldRam;
  /** What this ram shows when it is well. */
  readonly well: Readings;
  readonly count: number;
  /** Readings of the made-up rams when they are well: a row a ram, a column a channel; NaN for what is not there. */
  readonly sound: Float64Array;
  readonly causes: readonly CauseDraws[];
}

export interface CauseDraws {
  readonly code: FaultCode;
  readonly severities: Float64Array;
  readonly states: readonly RamState[];
  readonly readings: Float64Array;
}

export const COLUMNS = CHANNELS.length;
/** Made-up rams for each cause. */
export const USUAL_DRAWS = 240;
const USUAL_SEED = 20;

/**
 * How well the parts of a ram are known, as standard deviations of the logarithm; the fall in m. Common practice, no source.
 */
const DOUBT_OF = {
  wasteValveLoss: 0.12,
  checkValveLoss: 0.15,
  entranceLoss: 0.15,
  darcyFactor: 0.1,
  waveSpeed: 0.03,
  checkLag: 0.25,
  weightHead: 0.08,
  stroke: 0.08,
  airChamber: 0.25,
  lift: 0.01,
  fall: 0.02,
} as const;

export function makeDraws(field: FieldRam, count = USUAL_DRAWS, seed = USUAL_SEED): Draws {
  const random = seeded(seed);
  const rams = ramsOf(field, count, random);
  const sound = new Float64Array(count * COLUMNS);
  rams.forEach((ram, i) => {
    putReadings(sound, i, readingsOf(ram));
  });
  const causes = CAUSES.map((cause) => {
    const severities = severitiesOf(cause.severity, count, random);
    const readings = new Float64Array(count * COLUMNS);
    const states = rams.map((ram, i) => {
      const read = readingsOf(cause.apply(ram, severities[i] as number, random.uniform()));
      putReadings(readings, i, read);
      if (cause.flushed) curedByFlush(readings, sound, i);
      fillUsual(readings, i, cause);
      return read.state ?? 'runs';
    });
    return { code: cause.code, severities, states, readings };
  });
  return { field, well: readingsOf(field), count, sound, causes };
}

/** Rams like this one, within what is not known of it. */
export function ramsOf(field: FieldRam, count: number, random: Seeded): readonly FieldRam[] {
  return Array.from({ length: count }, () => likeThis(field, random));
}

function likeThis(field: FieldRam, random: Seeded): FieldRam {
  const about = (value: number, doubt: number) => value * Math.exp(doubt * random.normal());
  const { ram, closing, airChamber } = field;
  return {
    ...field,
    ram: {
      ...ram,
      wasteValveLoss: about(ram.wasteValveLoss, DOUBT_OF.wasteValveLoss),
      checkValveLoss: about(ram.checkValveLoss, DOUBT_OF.checkValveLoss),
      entranceLoss: about(ram.entranceLoss, DOUBT_OF.entranceLoss),
      darcyFactor: about(ram.darcyFactor, DOUBT_OF.darcyFactor),
      waveSpeed: about(ram.waveSpeed, DOUBT_OF.waveSpeed),
      checkLag: about(ram.checkLag, DOUBT_OF.checkLag),
    },
    closing:
      closing.kind === 'stroke'
        ? {
            ...closing,
            weightHead: about(closing.weightHead, DOUBT_OF.weightHead),
            stroke: about(closing.stroke, DOUBT_OF.stroke),
          }
        : { ...closing, weightHead: about(closing.weightHead, DOUBT_OF.weightHead) },
    airChamber: airChamber === null ? null : about(airChamber, DOUBT_OF.airChamber),
    lift: about(field.lift, DOUBT_OF.lift),
    fall: Math.max(field.fall / 2, field.fall + DOUBT_OF.fall * random.normal()),
  };
}

/** Severities evenly spread by their logarithm, in an order of their own. */
function severitiesOf(range: { readonly least: number; readonly most: number }, count: number, random: Seeded) {
  const span = Math.log(range.most / range.least);
  const list = Float64Array.from({ length: count }, (_, i) => range.least * Math.exp((span * (i + 0.5)) / count));
  for (let i = count - 1; i > 0; i -= 1) {
    const j = Math.floor(random.uniform() * (i + 1));
    const kept = list[i] as number;
    list[i] = list[j] as number;
    list[j] = kept;
  }
  return list;
}

export function putReadings(table: Float64Array, row: number, readings: Readings): void {
  for (let k = 0; k < COLUMNS; k += 1) {
    table[row * COLUMNS + k] = readings[CHANNELS[k] as (typeof CHANNELS)[number]] ?? Number.NaN;
  }
}

const AFTER_FLUSH = CHANNELS.indexOf('beatsAfterFlush');
const BEATS = CHANNELS.indexOf('beatsPerMinute');
const JITTER = CHANNELS.indexOf('jitter');
const STOPPED_AFTER = CHANNELS.indexOf('stoppedAfter');

function curedByFlush(readings: Float64Array, sound: Float64Array, row: number): void {
  readings[row * COLUMNS + AFTER_FLUSH] = sound[row * COLUMNS + BEATS] as number;
}

/** What does not follow from the beat but from what is usual. */
function fillUsual(readings: Float64Array, row: number, cause: (typeof CAUSES)[number]): void {
  const stands = Number.isNaN(readings[row * COLUMNS + BEATS]);
  if (!stands) readings[row * COLUMNS + JITTER] = cause.jitter;
  else if (cause.stopsAfter !== null) readings[row * COLUMNS + STOPPED_AFTER] = cause.stopsAfter;
}
