// What the benchmark of mending needs, in one module.
export { openFileSource } from '../../src/cli/input/node-io.ts';
export { evaluateDrawn } from '../../src/evaluation/evaluate/evaluate.ts';
export { groundOfPlan } from '../../src/evaluation/evaluate/ground-of-plan.ts';
export { mend } from '../../src/evaluation/mending/mend.ts';
export { readPlan } from '../../src/plan/file/read-plan.ts';
export { openTerrain } from '../../src/terrain/ground/open-terrain.ts';
export { placedPlan } from '../evaluation/mending/placed-plans.ts';
export { seededPlan } from '../evaluation/mending/seeded-plans.ts';
export { terrainOfGrids } from '../siting/terrain-of-grids.ts';
export { gridOf } from '../terrain/grid-in-memory.ts';
