// What the benchmark of plans with many tanks needs, in one module.
export { evaluate, evaluateDrawn } from '../../src/evaluation/evaluate/evaluate.ts';
export { lidar, madeGround } from '../evaluation/made-ground.ts';
export { route, sheet, tank, workingHeights, workingLengths, workingPlan } from '../evaluation/made-plan.ts';
