import { describe, expect, test } from 'vitest';
import { flowOfReading, sourceFlow } from '../../src/evaluation/site/source-yield.ts';
import type { YieldReading } from '../../src/plan/model/plan.ts';

/** A bucket of 10 L filled so often, with timings that lie `apart` seconds about a minute. */
const timed = (count: number, apart: number): YieldReading => ({
  kind: 'timed',
  volume: 0.01,
  volumePlusMinus: 0,
  times: Array.from({ length: count }, (_, k) => 60 + (k % 2 === 0 ? apart : -apart)),
});

const stated = (flow: number, plusMinus: number): YieldReading => ({ kind: 'stated', flow, plusMinus });

/** Sample standard deviation by the sum of squares. */
function sampleDeviation(values: readonly number[]): number {
  const mean = values.reduce((s, v) => s + v, 0) / values.length;
  return Math.sqrt(values.reduce((s, v) => s + (v - mean) ** 2, 0) / (values.length - 1));
}

/**
 * Upper 10 % points of Student's t for 1 to 10 degrees of freedom, as printed: NIST/SEMATECH e-Handbook of Statistical Methods,
 * section 1.3.6.7.2, column 0.90 (from memory; the integral below checks each of them).
 */
const PRINTED = [3.078, 1.886, 1.638, 1.533, 1.476, 1.44, 1.415, 1.397, 1.383, 1.372];
/** The same of the normal distribution, section 1.3.6.7.1. */
const NORMAL_90 = 1.2816;

/** Chance that Student's t of whole degrees of freedom stays below x > 0: its density integrated by Simpson's rule. */
function studentChance(x: number, degrees: number): number {
  const density = (t: number) => (1 + (t * t) / degrees) ** (-(degrees + 1) / 2);
  const integral = (to: number, parts: number) => {
    const h = to / parts;
    let sum = density(0) + density(to);
    for (let k = 1; k < parts; k += 1) sum += (k % 2 === 1 ? 4 : 2) * density(k * h);
    return (sum * h) / 3;
  };
  // Gamma function of halves: Γ(n + 1) = n Γ(n), Γ(1) = 1, Γ(1/2) = √π.
  const gamma = (n: number): number => (n === 1 ? 1 : n === 0.5 ? Math.sqrt(Math.PI) : (n - 1) * gamma(n - 1));
  const scale = gamma((degrees + 1) / 2) / (Math.sqrt(degrees * Math.PI) * gamma(degrees / 2));
  return 0.5 + scale * integral(x, 2000);
}

describe('a spring timed with a bucket', () => {
  test.each(PRINTED.map((printed, k) => ({ count: k + 2, printed })))(
    'spreads for $count timings as much wider as Student’s t says',
    ({ count, printed }) => {
      expect(studentChance(printed, count - 1)).toBeCloseTo(0.9, 3);
      const reading = timed(count, 6);
      const { flow, deviation } = flowOfReading(reading);
      const times = reading.kind === 'timed' ? reading.times : [];
      const mean = times.reduce((s, v) => s + v, 0) / count;
      const normal = sampleDeviation(times) / Math.sqrt(count) / mean;
      expect((deviation / flow / normal) * NORMAL_90).toBeCloseTo(printed, 3);
    },
  );

  test('is no surer than a hand on a watch, however well the timings agree', () => {
    const { flow, deviation } = flowOfReading(timed(4, 0));
    expect(flow).toBeCloseTo(0.01 / 60, 12);
    // 0.3 s of 60 s, four times: common practice, no source.
    expect(deviation / flow).toBeCloseTo(0.3 / 60 / 2, 9);
  });

  test('spreads by the bucket too', () => {
    const reading: YieldReading = { kind: 'timed', volume: 0.01, volumePlusMinus: 0.001, times: [60, 60, 60, 60] };
    // A tenth held 95 times of a hundred is 1.960 deviations; independent shares add by their squares (JCGM 100:2008, 5.1.6).
    const share = Math.hypot(0.1 / 1.96, 0.3 / 60 / 2);
    const { flow, deviation } = flowOfReading(reading);
    expect(deviation / flow).toBeCloseTo(share, 4);
  });
});

describe('several readings of a spring', () => {
  test.each([1, 2, 3, 5])('that agree have the variance of a mean: own variance over their number, %i', (count) => {
    // JCGM 100:2008 (GUM), 5.1.2: u²(mean of n independent) = Σ u² / n².
    const readings = Array.from({ length: count }, () => stated(20, 2));
    expect(sourceFlow(readings)?.deviation).toBeCloseTo(2 / 1.96 / Math.sqrt(count), 4);
  });

  test('that differ spread by how far they lie apart as well', () => {
    const flow = sourceFlow([stated(18, 0.98), stated(22, 1.96)]);
    expect(flow?.flow).toBe(20);
    // Own: √(0.5² + 1²) / 2. Apart: deviation of 18 and 22 is √8, widened by t of one degree of freedom, 3.078 over 1.2816.
    const own = Math.hypot(0.5, 1) / 2;
    const apart = (Math.sqrt(8) * 3.078) / 1.2816;
    expect(flow?.deviation).toBeCloseTo(Math.hypot(own, apart), 2);
  });

  test('are nothing when nothing was read', () => {
    expect(sourceFlow([])).toBeNull();
  });
});
