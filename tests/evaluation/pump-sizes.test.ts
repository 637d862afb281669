import { expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { pumpSizes } from '../../src/evaluation/evaluate/pump-sizes.ts';
import { madeGround } from './made-ground.ts';
import { litresPerMinute, sheet, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });

test('18 litres a minute through 4 m suit a drive pipe of an inch or thereabouts', () => {
  // USDA 1914 and extension sheets put 1 in to 1-1/4 in drive pipes at 10 to 30 L/min. Common practice, no source for the edge.
  const table = pumpSizes(workingPlan, ground);
  expect(table?.answer.kind).not.toBe('none');
  const suits = table?.rows.filter((r) => r.verdict === 'suits').map((r) => r.size.nominal) ?? [];
  expect(Math.min(...suits)).toBeGreaterThanOrEqual(15);
  expect(Math.max(...suits)).toBeLessThanOrEqual(40);
});

test('intake ranges rise with the size, and the largest wants more water than there is', () => {
  const rows = pumpSizes(workingPlan, ground)?.rows ?? [];
  const most = rows.flatMap((r) => r.intake?.most ?? []);
  expect(most).toEqual(most.toSorted((a, b) => a - b));
  expect(rows.at(-1)?.verdict).toBe('needs-more-water');
});

test('a source nobody has read gives no table', () => {
  expect(pumpSizes({ ...workingPlan, yieldReadings: [] }, ground)).toBeNull();
});

test('a sheet’s curve is read straight between its points', () => {
  // 25 m over 4.27 m of fall is about 5.9 falls: between 60 % at 4 and 40 % at 8 falls.
  const curve = [
    { headOverFall: 4, efficiency: 0.6 },
    { headOverFall: 8, efficiency: 0.4 },
  ];
  const plan = { ...workingPlan, pump: { ...sheet, efficiencyCurve: curve } };
  const line = evaluate(plan, ground).tanks[0]?.line;
  const ratio = line?.liftOverFall.likely ?? 0;
  const head = (line?.governingLift.likely ?? 0) + (line?.friction ?? 0);
  const efficiency = (((line?.ifRunningPerDay?.likely ?? 0) / 86_400) * head) / (litresPerMinute(18) * (head / ratio));
  expect(efficiency).toBeCloseTo(0.6 - (0.2 * (ratio - 4)) / 4, 6);
});
