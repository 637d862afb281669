import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HeightNet } from '../../src/evaluation/site/height-net.ts';
import { knownHeights, levelsOf, reduceBook, type StaffStand } from '../../src/evaluation/site/level-book.ts';
import type { Measurement } from '../../src/plan/model/plan.ts';
import { accuracyOfClass } from '../../src/terrain/accuracy/height-accuracy.ts';
import { samplePlan } from '../plan/sample-plan.ts';

const accuracy = accuracyOfClass('lidar-1m-open', { cell: 1, quantum: 0 });
if (!accuracy) throw new Error('found no class lidar-1m-open');

const stand = (at: string | null, fore: number | null, back: number | null): StaffStand => ({ at, fore, back });

function worked(stands: readonly StaffStand[], reading = 0.002) {
  const book = reduceBook(stands, reading);
  if (!book.ok) throw new Error(JSON.stringify(book.problems));
  return book.value;
}

describe('a level book', () => {
  // B. C. Punmia, Surveying, volume 1, chapter 9: ten readings, the level moved after the third, sixth and eighth, first staff on a
  // bench mark at 432.384; sum of back sights 5.964, of fore sights 6.916, last reduced level 431.432. From memory.
  test('gives the printed sums and reduced levels of a worked example', () => {
    const stands = [
      stand('bench-mark', null, 2.228),
      stand('first', 0.988, 2.09),
      stand('second', 1.262, 0.602),
      stand('third', 1.982, 1.044),
      stand('last', 2.684, null),
    ];
    const { backs, fores, legs, closing } = worked(stands);
    expect(backs).toBeCloseTo(5.964, 9);
    expect(fores).toBeCloseTo(6.916, 9);
    expect(closing).toBeNull();
    let level = 432.384;
    const reduced = legs.map(({ rise }) => {
      level += rise;
      return Number(level.toFixed(3));
    });
    expect(reduced).toEqual([433.624, 434.452, 433.072, 431.432]);
  });

  test('passes over turning points, which are no points of the plan', () => {
    const { legs } = worked([stand('a', null, 1.5), stand(null, 0.5, 2), stand(null, 1.25, 3), stand('b', 0.25, null)]);
    expect(legs).toHaveLength(1);
    expect(legs[0]).toMatchObject({ from: 'a', to: 'b', setups: 3 });
    expect(legs[0]?.rise).toBeCloseTo(1 + 0.75 + 2.75, 12);
  });

  test('is the less sure the more often the level was moved, as the root of it', () => {
    const through = (setups: number) =>
      worked([stand('a', null, 1), ...Array.from({ length: setups - 1 }, () => stand(null, 1, 1)), stand('b', 1, null)])
        .legs[0]?.plusMinus ?? 0;
    expect(through(4) / through(1)).toBeCloseTo(2, 9);
    // 1.96 √2 2 mm over one stand.
    expect(through(1)).toBeCloseTo(0.00554, 5);
  });

  test('that comes back tells its closing error, and is believed no more than it closes', () => {
    const loop = (off: number) =>
      worked([stand('a', null, 2), stand('b', 1, 1), stand(null, 1.5, 1.5), stand('a', 2 + off, null)]);
    expect(loop(0.004).closing).toMatchObject({ setups: 3, holds: true });
    expect(loop(0.004).closing?.error).toBeCloseTo(-0.004, 9);
    const bad = loop(0.06);
    expect(bad.closing).toMatchObject({ holds: false });
    // The whole error over three stands, a stand's share of it in the first leg.
    expect(bad.legs[0]?.plusMinus).toBeCloseTo((1.96 * 0.06) / Math.sqrt(3), 4);
  });

  test.each([
    [[stand('a', null, 1)], /1 places/],
    [[stand(null, null, 1), stand('b', 1, null)], /a turning point as the first/],
    [[stand('a', null, 1), stand(null, 1, null)], /a turning point as the last/],
    [[stand('a', null, null), stand('b', 1, null)], /place 1 without a back reading/],
    [[stand('a', null, 1), stand('b', null, null)], /place 2 without a fore reading/],
  ])('that is not whole says what is missing', (stands, words) => {
    const book = reduceBook(stands, 0.002);
    expect(book.ok ? '' : book.problems[0]?.found).toMatch(words);
  });
});

describe('levels are adjusted', () => {
  // C. D. Ghilani and P. R. Wolf, Adjustment Computations, "an unweighted example" of level nets: bench marks X 100.00 and
  // Y 107.50, seven differences. Normal equations solved by hand: A 105.141, B 104.483, C 106.188. Numbers from memory.
  test('as the printed net of seven lines between two bench marks', () => {
    const rise = (from: string, to: string, value: number): Measurement => ({
      kind: 'difference',
      from,
      to,
      rise: value,
      plusMinus: 0.1,
    });
    const known = (point: string, height: number): Measurement => ({ kind: 'height', point, height, plusMinus: 0.001 });
    const lines = [
      rise('x', 'a', 5.1),
      rise('a', 'y', 2.34),
      rise('y', 'c', -1.25),
      rise('c', 'x', -6.13),
      rise('a', 'b', -0.68),
      rise('y', 'b', -3),
      rise('b', 'c', 1.7),
    ];
    const net = new HeightNet(new Map(), [known('x', 100), known('y', 107.5), ...lines], accuracy);
    expect(net.height('a')).toBeCloseTo(105.141, 3);
    expect(net.height('b')).toBeCloseTo(104.483, 3);
    expect(net.height('c')).toBeCloseTo(106.188, 3);
  });

  test('with the doubt of the elevation model as prior: a careful book wins, a careless one hardly counts', () => {
    const [from, to] = samplePlan.points;
    if (!from || !to) throw new Error('found a sample without two points');
    const ground = { slope: 0.1, smoothing: 0 };
    const points = new Map([
      [from.id, { ...ground, ground: 100 }],
      [to.id, { ...ground, ground: 96 }],
    ]);
    const rise = (reading: number) => {
      const levels = levelsOf(worked([stand(from.id, null, 0.5), stand(to.id, 5.5, null)], reading));
      const plan = { ...samplePlan, measurements: [...levels] };
      const known = knownHeights(plan, [from.id, to.id], { points, accuracy });
      return (known.get(to.id)?.ground ?? 0) - (known.get(from.id)?.ground ?? 0);
    };
    expect(rise(0.002)).toBeCloseTo(-5, 2);
    expect(rise(20)).toBeCloseTo(-4, 2);
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 5, noNaN: true }), (reading) => {
        expect(rise(reading)).toBeGreaterThanOrEqual(-5.01);
        expect(rise(reading)).toBeLessThanOrEqual(-3.99);
      }),
      { seed: 5, numRuns: 30 },
    );
  });

  test('and what is known of a point gets surer', () => {
    const [from, to] = samplePlan.points;
    if (!from || !to) throw new Error('found a sample without two points');
    const points = new Map([from, to].map(({ id }) => [id, { ground: 100, slope: 0.1, smoothing: 0 }]));
    const before = knownHeights({ ...samplePlan, measurements: [] }, [to.id], { points, accuracy }).get(to.id);
    const level: Measurement = { kind: 'height', point: to.id, height: 100.2, plusMinus: 0.02 };
    const after = knownHeights({ ...samplePlan, measurements: [level] }, [to.id], { points, accuracy }).get(to.id);
    expect(after?.plusMinus).toBeLessThan(before?.plusMinus ?? 0);
  });
});
