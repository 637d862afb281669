import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../src/evaluation/evaluate/evaluate.ts';
import { sheetOfSize } from '../../../src/evaluation/evaluate/pump-catalogue.ts';
import { pumpSizes } from '../../../src/evaluation/evaluate/pump-sizes.ts';
import { setPump } from '../../../src/plan/edits/edit-water.ts';
import { pumpSizeAnswer, pumpSizeWords } from '../../../src/report/words/pump-size-words.ts';
import { madeGround } from '../../evaluation/made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from '../../evaluation/made-plan.ts';

const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });
const table = pumpSizes(workingPlan, ground);
const row = (nominal: number) => {
  const found = table?.rows.find(({ size }) => size.nominal === nominal);
  if (found === undefined) throw new Error(`size ${nominal}: found none, expected one of the table`);
  return found;
};

describe('sizes of ram in words', () => {
  test('a size that would drink the stream dry is said to take more than is there', () => {
    const words = pumpSizeWords(row(100), 'metric');
    expect(words).toMatchObject({ name: 'DN 100 (4 in)', verdict: 'fails', sentence: 'too big for this spring' });
    expect(words.delivery).toBeNull();
  });

  test('a size below what is there runs and leaves water', () => {
    expect(pumpSizeWords(row(10), 'us').verdict).toBe('holds');
    expect(pumpSizeWords(row(10), 'us').sentence).toBe('small for this spring');
  });

  test('the answer has a sentence of its own for each kind', () => {
    const { size } = row(25);
    const delivery = 1 / 86_400;
    expect(pumpSizeAnswer({ kind: 'one', size, delivery }, 'metric')).toContain('DN 25 (1 in) ram suits');
    expect(pumpSizeAnswer({ kind: 'one', size, delivery }, 'metric')).toContain('1000\u202fL/day');
    expect(pumpSizeAnswer({ kind: 'two-side-by-side', size, delivery }, 'us')).toMatch(/^Two .* side by side/);
    expect(pumpSizeAnswer({ kind: 'none', because: 'too-little-water' }, 'metric')).toMatch(/^No usual size suits/);
    expect(pumpSizeAnswer({ kind: 'none', because: 'delivery-head-too-high' }, 'metric')).toContain('pressure wave');
    expect(pumpSizeAnswer({ kind: 'no-pump-needed' }, 'metric')).toMatch(/^No pump is needed/);
  });
});

describe('a pump sheet filled from a size', () => {
  test('has the bore and the intake of the size and can be set as the pump', () => {
    const one = row(25);
    const sheet = sheetOfSize(one);
    // Bore of 1 in Schedule 40 pipe, 1.049 in: ASME B36.10M.
    expect(sheet?.driveBore).toBeCloseTo(0.02664, 4);
    expect([sheet?.intakeLeast, sheet?.intakeMost]).toEqual([one.intake?.least, one.intake?.most]);
    expect(sheet?.efficiency).toBeNull();
    expect(sheet !== null && setPump(workingPlan, sheet).ok).toBe(true);
  });

  test('is that of two side by side where they are taken, each with the figures of one', () => {
    // Source of 18 L/min: two of 20 mm take more of it than one does at its heaviest setting.
    const little = row(20);
    expect(little.intake?.most).toBeLessThan(18 / 60_000);
    const words = pumpSizeWords(little, 'metric');
    expect(words.two).not.toBeNull();
    expect(sheetOfSize(little, 2)).toEqual({ ...sheetOfSize(little), count: 2 });
    const one = setPump(workingPlan, sheetOfSize(little));
    const pair = setPump(workingPlan, sheetOfSize(little, 2));
    if (!one.ok || !pair.ok) throw new Error('found a refusal, expected two plans');
    const taken = [one, pair].map((edit) => evaluate(edit.value.plan, ground).pump?.driveFlow?.likely ?? Number.NaN);
    expect(taken[0]).toBeCloseTo(little.intake?.most ?? Number.NaN, 12);
    expect(taken[1]).toBeCloseTo(Math.min(2 * (little.intake?.most ?? Number.NaN), 18 / 60_000), 12);
  });

  test('there is none for a size that does not run', () => {
    expect(sheetOfSize({ ...row(25), intake: null })).toBeNull();
  });
});
