import { expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { USUAL_ROUTE_SETTINGS } from '../../src/siting/lines/route-settings.ts';
import { madeGround } from '../evaluation/made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from '../evaluation/made-plan.ts';

test('a proposed drive pipe lies no deeper than the trench that a drawn one is judged by', () => {
  const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });
  const rises = evaluate(workingPlan, ground).findings.find(({ code }) => code === 'drive-rises');
  // Dug by hand along a pipe without special work: 0.3 m. Common practice, no source.
  expect(rises?.limit).toBe(0.3);
  expect(USUAL_ROUTE_SETTINGS.deepest).toBe(0.3);
});
