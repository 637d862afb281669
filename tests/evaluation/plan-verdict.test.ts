import { expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { lidar, madeGround } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const verdictOf = (plan: Plan, heights = workingHeights) =>
  evaluate(plan, madeGround(plan, { heights, lengths: workingLengths, accuracy: lidar })).verdict;

const without = (role: string): Plan => ({
  ...workingPlan,
  routes: workingPlan.routes.filter((route) => route.role !== role),
});

test('a plan runs only once a line leads somewhere', () => {
  expect(verdictOf(workingPlan)).toBe('holds');
  expect(verdictOf(without('delivery'))).toBeNull();
});

test('what is drawn so far can fail before that', () => {
  expect(verdictOf(without('delivery'), { ...workingHeights, spring: 100.3, standpipe: 100.2 })).toBe('fails');
});

test('a trough that the pump fills by its own line is a place that a line leads to', () => {
  const toTrough: Plan = {
    ...workingPlan,
    routes: workingPlan.routes.flatMap((route) =>
      route.role === 'gravity' ? [] : route.role === 'delivery' ? [{ ...route, to: 'trough' }] : [route],
    ),
  };
  expect(verdictOf(toTrough)).toBe('holds');
  expect(verdictOf(toTrough, { ...workingHeights, trough: 300 })).toBe('fails');
});
