import { expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { pipeChoices } from '../../src/evaluation/evaluate/pipe-choices.ts';
import { classStretches } from '../../src/evaluation/evaluate/pipe-classes.ts';
import { madeGround } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const long = madeGround(workingPlan, { heights: workingHeights, lengths: { ...workingLengths, delivery: 900 } });

test('a larger delivery pipe loses less and never delivers less', () => {
  const { choices } = pipeChoices(workingPlan, long, 'delivery');
  const flows = choices.map((c) => c.flow ?? 0);
  const shares = choices.map((c) => c.frictionShare ?? 0);
  expect(choices.length).toBeGreaterThan(4);
  expect(flows).toEqual(flows.toSorted((a, b) => a - b));
  expect(shares).toEqual(shares.toSorted((a, b) => b - a));
});

test('the size suggested is the smallest that keeps friction to a tenth of the lift', () => {
  const far = madeGround(workingPlan, { heights: workingHeights, lengths: { ...workingLengths, delivery: 4000 } });
  const { choices, suggested } = pipeChoices(workingPlan, far, 'delivery');
  const at = choices.findIndex((c) => c.row.id === suggested?.id);
  expect(choices[at]?.frictionShare).toBeLessThanOrEqual(0.1);
  expect(choices[at - 1]?.frictionShare).toBeGreaterThan(0.1);
});

test('the row the plan has gives what the plan gives', () => {
  const own = pipeChoices(workingPlan, long, 'delivery').choices.find((c) => c.row.id === 'pe100-sdr11-25');
  expect(own?.flow).toBe(evaluate(workingPlan, long).lines.find((l) => l.id === 'delivery')?.flow);
});

test('the heavy pipe lies low and the light pipe high, each where ISO 4427 rates it', () => {
  // A tank 140 m up: 14 bar at the pump, so PN 16 (SDR 11) low down, lighter pipe where less than 10 bar stand over it.
  const ground = madeGround(workingPlan, { heights: { ...workingHeights, tank: 240 }, lengths: workingLengths });
  const stretches = classStretches(workingPlan, ground, 'delivery') ?? [];
  const rated: Readonly<Record<string, number>> = {
    'pe100-sdr11-25': 16e5,
    'pe100-sdr13.6-25': 12.5e5,
    'pe100-sdr17-25': 10e5,
  };
  expect(stretches[0]?.row).toBe('pe100-sdr11-25');
  expect(stretches.length).toBeGreaterThan(1);
  for (const stretch of stretches) {
    if (stretch.row !== null && rated[stretch.row] !== undefined)
      expect(stretch.most).toBeLessThanOrEqual(rated[stretch.row] ?? 0);
  }
  expect(stretches[0]?.from).toBe(0);
  expect(stretches.at(-1)?.to).toBeCloseTo(300, 9);
});
