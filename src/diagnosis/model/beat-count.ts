import type { Ratio, Seconds } from '../../units/quantity.ts';

/** Beats that were counted one by one. */
export interface BeatCount {
  readonly beatsPerMinute: number;
  /** Standard deviation of the beat over its mean. */
  readonly jitter: Ratio;
  readonly beats: number;
}

const MINUTE: Seconds = 60;
/** Beats that tell anything at all. */
const FEWEST = 4;
/** An interval so many times the middle one holds a beat that was missed; so short a one holds one too many. */
const MISSED = 1.6;
const DOUBLED = 0.5;

/** Beats a minute and jitter from the moments of taps, s; null while there are too few. */
export function beatsFromTaps(at: readonly Seconds[]): BeatCount | null {
  if (at.length < FEWEST) return null;
  const gaps = at.slice(1).map((moment, i) => moment - (at[i] as number));
  const usual = middleOf(gaps);
  const kept = gaps.filter((gap) => gap > DOUBLED * usual && gap < MISSED * usual);
  if (!(usual > 0) || kept.length < FEWEST - 1) return null;
  const mean = kept.reduce((sum, gap) => sum + gap, 0) / kept.length;
  const variance = kept.reduce((sum, gap) => sum + (gap - mean) ** 2, 0) / Math.max(1, kept.length - 1);
  return { beatsPerMinute: MINUTE / mean, jitter: Math.sqrt(variance) / mean, beats: kept.length };
}

function middleOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

/** Rate at which the loudness of a recording is looked at, Hz. */
const LOUDNESS_RATE = 200;
/** Beats a minute that are looked for. */
const SLOWEST = 25;
const FASTEST = 220;
/** A peak of the likeness with itself below this is no beat. */
const LEAST_LIKENESS = 0.12;
/** Of several peaks nearly as high the shortest is the beat; the others are its multiples. */
const NEARLY = 0.78;

/**
 * Beats a minute from a recording: the loudness is taken from the sound, its rises are kept, and the time is sought after
 * which the recording is most like itself. Null where no beat stands out.
 *
 * Source: autocorrelation of the onset strength, common practice of beat tracking, no source.
 */
export function beatsFromSound(sound: Float32Array, rate: number): BeatCount | null {
  const rises = risesOf(loudness(sound, rate));
  const likeness = likenessOf(rises, (LOUDNESS_RATE * MINUTE) / FASTEST, (LOUDNESS_RATE * MINUTE) / SLOWEST);
  if (likeness === null) return null;
  const lag = refined(rises, likeness);
  const moments = peaksNear(rises, lag);
  const counted = beatsFromTaps(moments);
  return { beatsPerMinute: (LOUDNESS_RATE * MINUTE) / lag, jitter: counted?.jitter ?? 0, beats: moments.length };
}

/** Logarithm of the root mean square in steps of 1/200 s. */
function loudness(sound: Float32Array, rate: number): Float64Array {
  const step = rate / LOUDNESS_RATE;
  const count = Math.floor(sound.length / step);
  const quiet = 1e-4;
  return Float64Array.from({ length: count }, (_, i) => {
    let sum = 0;
    const [from, to] = [Math.floor(i * step), Math.floor((i + 1) * step)];
    for (let k = from; k < to; k += 1) sum += (sound[k] as number) ** 2;
    return Math.log(quiet + Math.sqrt(sum / Math.max(1, to - from)));
  });
}

/** Steps over which a rise is taken: 30 ms. */
const RISE = 6;

/** By how much it grew louder over 30 ms, smoothed, without its mean. */
function risesOf(level: Float64Array): Float64Array {
  const rises = Float64Array.from(level, (value, i) => Math.max(0, value - (level[Math.max(0, i - RISE)] as number)));
  const smooth = Float64Array.from(rises, (_, i) => {
    let sum = 0;
    for (let k = -RISE; k <= RISE; k += 1) sum += (rises[i + k] ?? 0) * (RISE + 1 - Math.abs(k));
    return sum;
  });
  const mean = smooth.reduce((sum, value) => sum + value, 0) / Math.max(1, smooth.length);
  return smooth.map((value) => value - mean);
}

function likenessAt(rises: Float64Array, lag: number): number {
  let sum = 0;
  let own = 0;
  for (let i = 0; i + lag < rises.length; i += 1) {
    sum += (rises[i] as number) * (rises[i + lag] as number);
    own += (rises[i] as number) ** 2;
  }
  return own > 0 ? sum / own : 0;
}

/** The shortest lag at which it is nearly as like itself as anywhere; null where it hardly is. */
function likenessOf(rises: Float64Array, least: number, most: number): number | null {
  const from = Math.floor(least);
  const to = Math.min(Math.ceil(most), Math.floor(rises.length / 2));
  const likeness: number[] = [];
  for (let lag = from; lag <= to; lag += 1) likeness.push(likenessAt(rises, lag));
  const best = Math.max(...likeness, 0);
  if (best < LEAST_LIKENESS) return null;
  const at = likeness.findIndex(
    (value, i) => value >= NEARLY * best && value >= (likeness[i - 1] ?? -1) && value >= (likeness[i + 1] ?? -1),
  );
  return at < 0 ? null : from + at;
}

/** Whole beats after which the lag is looked at again, so that a part of a step shows. */
const FURTHER = 8;

function refined(rises: Float64Array, lag: number): number {
  let found = lag;
  for (let beats = 2; beats <= FURTHER && beats * found < rises.length / 2; beats *= 2) {
    const about = Math.round(beats * found);
    const reach = Math.max(2, beats);
    let best = about;
    for (let at = about - reach; at <= about + reach; at += 1) {
      if (likenessAt(rises, at) > likenessAt(rises, best)) best = at;
    }
    found = best / beats;
  }
  return found;
}

/** Moments of the beats themselves: in each stretch of a beat's length the highest rise. */
function peaksNear(rises: Float64Array, lag: number): readonly Seconds[] {
  const moments: number[] = [];
  let first = 0;
  for (let i = 1; i < Math.min(rises.length, lag); i += 1) {
    if ((rises[i] as number) > (rises[first] as number)) first = i;
  }
  let at = first;
  while (at < rises.length) {
    const reach = Math.round(lag / 4);
    let best = at;
    for (let i = Math.max(0, at - reach); i <= Math.min(rises.length - 1, at + reach); i += 1) {
      if ((rises[i] as number) > (rises[best] as number)) best = i;
    }
    moments.push(best / LOUDNESS_RATE);
    at = Math.round(best + lag);
  }
  return moments;
}
