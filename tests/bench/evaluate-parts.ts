// What the benchmark of the evaluation needs, in one module.
export { openFileSource } from '../../src/cli/file-source.ts';
export { evaluate, evaluateDrawn } from '../../src/evaluation/evaluate.ts';
export { groundOfPlan } from '../../src/evaluation/ground-of-plan.ts';
export { readPlan } from '../../src/plan/read-plan.ts';
export { openTerrain } from '../../src/terrain/open-terrain.ts';
