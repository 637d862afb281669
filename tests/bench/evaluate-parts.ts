// What the benchmark of the evaluation needs, in one module.
export { openFileSource } from '../../src/cli/input/node-io.ts';
export { evaluate, evaluateDrawn } from '../../src/evaluation/evaluate/evaluate.ts';
export { groundOfPlan } from '../../src/evaluation/evaluate/ground-of-plan.ts';
export { readPlan } from '../../src/plan/file/read-plan.ts';
export { openTerrain } from '../../src/terrain/ground/open-terrain.ts';
