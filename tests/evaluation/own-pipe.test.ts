import { expect, test } from 'vitest';
import { pipeOfPlan } from '../../src/evaluation/site/pipe-of-plan.ts';
import { pipeFlow } from '../../src/hydraulics/pipe-flow.ts';

test('a pipe of one’s own that is as rough as a plan may state still has a loss at every end of its tolerances', () => {
  const wall = { wall: 0.002, rating: null, material: 'steel', label: 'own', id: 'own', kind: 'own' } as const;
  const pipe = pipeOfPlan({ ...wall, bore: 0.003, roughness: 0.001 }, 10);
  expect(pipe.roughnessHigh).toBeGreaterThan(pipe.roughness);
  for (const bore of [pipe.boreLow, pipe.boreHigh]) {
    for (const roughness of [pipe.roughnessLow, pipe.roughnessHigh]) {
      const loss = pipeFlow({ bore, roughness, viscosity: 1.3e-6, length: 10, k: 0 }).headLoss(1e-6);
      expect(loss).toBeGreaterThan(0);
    }
  }
});
