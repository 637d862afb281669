import { describe, expect, test } from 'vitest';
import { pointHeights } from '../../src/evaluation/site/heights.ts';
import type { Measurement, Plan } from '../../src/plan/model/plan.ts';
import type { HeightAccuracy } from '../../src/terrain/grid/ground.ts';
import { coarse, lidar, madeGround, perfect } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const Z = 1.959964;

/** Standard deviation of the fall, and the heights of the points, with some readings taken. */
function net(measurements: readonly Measurement[], accuracy: HeightAccuracy, without: readonly string[] = []) {
  const plan: Plan = { ...workingPlan, measurements };
  const gone = Object.fromEntries(without.map((id) => [id, null]));
  const ground = madeGround(plan, { heights: { ...workingHeights, ...gone }, lengths: workingLengths, accuracy });
  const heights = pointHeights(plan, ground.points, accuracy);
  const at = (id: string) => heights.node(id)?.ground ?? Number.NaN;
  const apart = (a: string, b: string) => {
    const nodes = [heights.node(a), heights.node(b)].flatMap((n) => n ?? []);
    const [aa = 0, ab = 0, , bb = 0] = heights.covariance(nodes);
    return Math.sqrt(Math.max(0, aa + bb - 2 * ab));
  };
  return { heights, at, apart, fall: apart('spring', 'ram') };
}

const rise = (to: string, value: number, plusMinus: number, from = 'spring'): Measurement => ({
  kind: 'difference',
  from,
  to,
  rise: value,
  plusMinus,
});
const level = (point: string, height: number, plusMinus: number, survey?: string): Measurement => ({
  kind: 'height',
  point,
  height,
  plusMinus,
  ...(survey !== undefined && { survey }),
});

describe('levels are weighed with what the DEM says', () => {
  // Two independent sayings of one thing: 1/s² = 1/a² + 1/b². Textbook formula, from memory.
  test.each([0.03, 0.3, 3])('a fall levelled to ±%s m is known better than by the DEM or the level alone', (pm) => {
    const before = net([], lidar).fall;
    const sigma = pm / Z;
    const both = 1 / Math.sqrt(1 / before ** 2 + 1 / sigma ** 2);
    const after = net([rise('ram', -4.5, pm)], lidar).fall;
    expect(after).toBeCloseTo(both, 6);
    expect(after).toBeLessThan(before);
  });

  test('the likely fall lies between both, by their weights', () => {
    const before = net([], lidar).fall;
    const weight = before ** 2 / (before ** 2 + (0.3 / Z) ** 2);
    const { at } = net([rise('ram', -4.8, 0.3)], lidar);
    expect(at('spring') - at('ram')).toBeCloseTo(4.5 + 0.3 * weight, 6);
  });

  test('two readings of one thing count as their mean does', () => {
    const two = net([rise('ram', -4.4, 0.3), rise('ram', -4.8, 0.3)], lidar);
    const one = net([rise('ram', -4.6, 0.3 / Math.SQRT2)], lidar);
    expect(two.fall).toBeCloseTo(one.fall, 9);
    expect(two.at('ram') - two.at('spring')).toBeCloseTo(one.at('ram') - one.at('spring'), 9);
  });

  // Recorded from Python: covariance of spring and ram, 90 m apart, with 15 m of placement on a slope of 0.1, conditioned by hand.
  //   C = lambda d: .49*max(0,1-1.5*min(1,d/49.5)+.5*min(1,d/49.5)**3) + .25*exp(-3*d/300) + 2.27**2*exp(-3*d/2e4)
  //   K = [[C(0)+2.25, C(d)], [C(d), C(0)+2.25]]; v = K[1][1] + .4**2 + (.02/1.959964)**2; P = K - K[:,1] K[1,:] / v
  test('one benchmark at the pump never widens the fall', () => {
    const before = net([], coarse);
    const after = net([level('ram', 100, 0.02)], coarse);
    expect(before.fall).toBeCloseTo(2.4319, 3);
    expect(after.fall).toBeCloseTo(2.2048, 3);
  });

  test('a zero that is off moves the points together, not one against its neighbours', () => {
    const { at } = net([level('ram', 100.4, 0.02), level('spring', 104.9, 0.02)], lidar);
    expect(at('spring') - at('ram')).toBeCloseTo(4.5, 6);
    const alone = net([level('ram', 101.5, 0.02)], lidar);
    expect(Math.abs(alone.at('spring') - alone.at('ram') - 4.5)).toBeLessThan(0.1);
  });

  test.each([1.5, -1.5, 48.5])(
    'a benchmark whose zero is %s m off says nothing of the fall, and is asked after',
    (off) => {
      const alone = net([level('ram', 100 + off, 0.02)], lidar);
      expect(alone.at('spring') - alone.at('ram')).toBeCloseTo(4.5, 3);
      expect(alone.fall).toBeCloseTo(net([], lidar).fall, 3);
      const [check] = alone.heights.checks();
      expect(Math.abs(100 + off - (check?.expected ?? 0)) / (check?.deviation ?? 1)).toBeGreaterThan(3);
    },
  );

  test('two levels from one zero that is off still tell how high one stands above the other', () => {
    const both = net([level('ram', 148.5, 0.02), level('spring', 153.1, 0.02)], lidar);
    // 4.6 m by the two levels, known to √2 · 0.02 m at 95 %; the DEM says 4.5 m and weighs little.
    expect(both.at('spring') - both.at('ram')).toBeCloseTo(4.6, 1);
    expect(both.fall).toBeLessThan((Math.SQRT2 * 0.02) / Z + 1e-6);
  });

  test('a survey with a zero of its own tells differences only', () => {
    const one = net([level('ram', 12, 0.02, 'builder')], lidar);
    expect(one.at('ram')).toBeCloseTo(100, 4);
    expect(one.fall).toBeCloseTo(net([], lidar).fall, 5);
    const two = net([level('ram', 12, 0.02, 'builder'), level('spring', 16.5, 0.02, 'builder')], lidar);
    const straight = net([rise('ram', -4.5, 0.02 * Math.SQRT2)], lidar);
    expect(two.fall).toBeCloseTo(straight.fall, 5);
  });

  test('order makes no difference, and a loop that closes is better than any way round it', () => {
    const loop = [
      rise('standpipe', -1.1, 0.05),
      rise('ram', -3.4, 0.05, 'standpipe'),
      rise('spring', 4.47, 0.05, 'ram'),
    ];
    const forwards = net(loop, coarse);
    const backwards = net(loop.toReversed(), coarse);
    for (const id of ['spring', 'standpipe', 'ram', 'tank']) expect(forwards.at(id)).toBeCloseTo(backwards.at(id), 9);
    // A direct sight of ±5 cm beside a chain of two: 1/s² = 1/0.05² + 1/(2 · 0.05²), and what the DEM adds to them is small.
    const sight = 0.05 / Z / Math.sqrt(1 + 1 / 2);
    expect(forwards.fall).toBeLessThan(sight);
    expect(forwards.fall).toBeGreaterThan(0.995 * sight);
    // Worked by least squares: the 3 cm by which the loop does not close are shared, a third to each leg.
    expect(forwards.at('spring') - forwards.at('ram')).toBeCloseTo(4.48, 2);
  });

  test('more readings never widen any difference', () => {
    const all = [
      rise('ram', -4.5, 0.3),
      level('tank', 123, 3),
      rise('tank', 23, 2, 'ram'),
      level('spring', 104.5, 0.5),
    ];
    const pairs = [
      ['spring', 'ram'],
      ['ram', 'tank'],
      ['standpipe', 'ram'],
    ] as const;
    for (const [a, b] of pairs) {
      let before = net([], coarse).apart(a, b);
      all.forEach((_, i) => {
        const after = net(all.slice(0, i + 1), coarse).apart(a, b);
        expect(after).toBeLessThanOrEqual(before + 1e-9);
        before = after;
      });
    }
  });

  test('a point without a DEM height stands where the level puts it, as sure as the way there', () => {
    const { at, apart } = net([rise('ram', -4.5, 0.1)], perfect, ['ram']);
    expect(at('ram')).toBeCloseTo(100, 9);
    expect(apart('spring', 'ram')).toBeCloseTo(0.1 / Z, 6);
    expect(net([], perfect, ['ram']).heights.node('ram')).toBeNull();
  });

  test('a reading that is set aside does not count', () => {
    const aside: Measurement = { ...rise('ram', -9, 0.01), standing: 'set-aside' };
    expect(net([aside], lidar).at('ram')).toBe(100);
    expect(net([aside], lidar).fall).toBeCloseTo(net([], lidar).fall, 12);
  });
});

describe('a reading against what was expected', () => {
  test('is told in standard deviations of what all the rest says', () => {
    const [check] = net([rise('ram', -6, 0.1)], lidar).heights.checks();
    const before = net([], lidar).fall;
    expect(check?.expected).toBeCloseTo(-4.5, 9);
    expect(check?.deviation).toBeCloseTo(Math.hypot(before, 0.1 / Z), 6);
  });

  test('of several the wrong one stands out', () => {
    const readings = [-4.5, -4.52, -5.5];
    const checks = net(
      readings.map((value) => rise('ram', value, 0.05)),
      coarse,
    ).heights.checks();
    const off = checks.map(({ expected, deviation }, i) => Math.abs((readings[i] ?? 0) - expected) / deviation);
    expect(off[2]).toBeGreaterThan(1.2 * Math.max(off[0] ?? 0, off[1] ?? 0));
  });
});
