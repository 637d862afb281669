import type { Plan, YieldReading } from '../../plan/model/plan.ts';
import type { CubicMetresPerSecond, Ratio, Seconds } from '../../units/quantity.ts';
import { Z90, Z975 } from '../statistics/normal.ts';

/** A flow with its standard deviation, m³/s. */
export interface FlowReading {
  readonly flow: CubicMetresPerSecond;
  readonly deviation: CubicMetresPerSecond;
}

/** Least standard deviation of one timing by hand: starting and stopping a watch. Common practice, no source. */
const TIMING_BY_HAND: Seconds = 0.3;

/** 90th percentile of Student's t for 1, 2, 3 … degrees of freedom. Tables of Student's t distribution. */
const STUDENT_90 = [3.078, 1.886, 1.638, 1.533, 1.476, 1.44, 1.415, 1.397, 1.383, 1.372];

const mean = (values: readonly number[]) => values.reduce((s, v) => s + v, 0) / values.length;

/** Sample standard deviation; 0 for fewer than two values. */
function deviation(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const middle = mean(values);
  return Math.sqrt(values.reduce((s, v) => s + (v - middle) ** 2, 0) / (values.length - 1));
}

/** How much wider the mean of n readings spreads than a normal distribution would say, for few readings. */
function studentFactor(count: number): Ratio {
  if (count < 2) return 1;
  return (STUDENT_90[count - 2] ?? Z90) / Z90;
}

/**
 * Flow of a spring from fillings of a container: Q = V / t̄, with
 * (s_Q / Q)² = (s_V / V)² + (s_t / (t̄ √n))², s_t the deviation of the timings but no less than that of a hand on a watch,
 * widened by Student's t where the timings are few. Propagation of independent errors.
 */
export function flowOfReading(reading: YieldReading): FlowReading {
  if (reading.kind === 'stated') return { flow: reading.flow, deviation: reading.plusMinus / Z975 };
  const n = reading.times.length;
  const time = mean(reading.times);
  const seen = deviation(reading.times) * studentFactor(n);
  const timing = Math.max(seen, TIMING_BY_HAND) / Math.sqrt(n);
  const flow = reading.volume / time;
  return { flow, deviation: flow * Math.hypot(reading.volumePlusMinus / Z975 / reading.volume, timing / time) };
}

/**
 * All readings together: their mean, spread by their own errors and by how far they lie apart, since a spring that
 * was read twice and differs may differ again. Null when nothing was read.
 */
export function sourceFlow(readings: readonly YieldReading[]): FlowReading | null {
  const each = readings.map(flowOfReading);
  if (each.length === 0) return null;
  const own = each.reduce((s, r) => s + r.deviation ** 2, 0) / each.length ** 2;
  const apart = deviation(each.map((r) => r.flow)) * studentFactor(each.length);
  return { flow: mean(each.map((r) => r.flow)), deviation: Math.sqrt(own + apart ** 2) };
}

/** ± of a guess at what the dry season leaves, as a share of it; 95 % interval. Common practice, no source. */
const GUESSED_DRY: Ratio = 0.25;

/**
 * What may be taken of a source's flow, as a share: the dry season's share less what stays in the stream. The dry season's share
 * has a doubt of its own unless the readings are those of the dry season.
 */
export function usableShare(plan: Plan): { readonly share: Ratio; readonly deviation: Ratio } {
  const left = 1 - (plan.leftInStream ?? 0);
  const dry = plan.dryShare ?? 1;
  const doubt = plan.dryShareDoubt ?? (plan.dryShare === null || plan.dryShare === 1 ? 0 : GUESSED_DRY * dry);
  return { share: dry * left, deviation: (doubt / Z975) * left };
}
