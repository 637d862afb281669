// What the benchmark of mending needs, in one module.
export { openFileSource } from '../../src/cli/input/node-io.ts';
export { evaluateDrawn } from '../../src/evaluation/evaluate/evaluate.ts';
export { groundOfPlan } from '../../src/evaluation/evaluate/ground-of-plan.ts';
export { mend } from '../../src/evaluation/mending/mend.ts';
export { readPlan } from '../../src/plan/file/read-plan.ts';
export { openTerrain } from '../../src/terrain/ground/open-terrain.ts';
export { seededPlan } from '../evaluation/mending/seeded-plans.ts';
