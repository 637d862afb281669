import { expect, it } from 'vitest';
import { levelBridge } from '../../src/report/words/level-bridge.ts';
import { demoSource } from './print/print-made.ts';

it.each(['metric', 'us'] as const)(
  'the fall from ground to ground and from water to valve is bridged by what stands above the ground, in %s units',
  async (units) => {
    const { plan, site } = await demoSource();
    const item = site?.evaluation.measureFirst.find(({ quantity }) => quantity === 'fall');
    if (!item?.expected || !site?.evaluation.pump) throw new Error('found no fall to be levelled, expected one');
    const words = levelBridge(item, plan, units) ?? '';
    const metres = units === 'us' ? 0.3048 : 1;
    const [low = 0, high = 0] = [...words.matchAll(/([\d.]+) to ([\d.]+)/g)][0]?.slice(1).map(Number) ?? [];
    // The fall at rest is what the evaluation itself makes of the same two places, from the water to the waste valve.
    const { fallAtRest } = site.evaluation.pump;
    expect(low * metres).toBeCloseTo(fallAtRest.low, 1);
    expect(high * metres).toBeCloseTo(fallAtRest.high, 1);
    expect(words).toContain('ground to ground');
  },
);

it('nothing is bridged that is not levelled between two points', async () => {
  const { plan, site } = await demoSource();
  const item = site?.evaluation.measureFirst.find(({ quantity }) => quantity === 'source-yield');
  expect(item).toBeDefined();
  expect(item && levelBridge(item, plan, 'metric')).toBeNull();
});
