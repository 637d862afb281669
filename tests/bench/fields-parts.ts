// What the benchmark of the passes over every cell needs, in one module.

export { openFileSource } from '../../src/cli/input/node-io.ts';
export { groundOfPlan } from '../../src/evaluation/evaluate/ground-of-plan.ts';
export { readPlan } from '../../src/plan/file/read-plan.ts';
export { breached, USUAL_BREACH } from '../../src/siting/fields/breach.ts';
export { fallingPipe } from '../../src/siting/fields/falling-pipe.ts';
export { accumulation, flood } from '../../src/siting/fields/flood.ts';
export { governingLevel } from '../../src/siting/fields/governing-level.ts';
export { waysFrom } from '../../src/siting/fields/ways-from.ts';
export { deliveryTable } from '../../src/siting/reach/delivery-table.ts';
export { emptyReachMap, fillReachMap } from '../../src/siting/reach/reach-map.ts';
export { deliveryPipeOf } from '../../src/siting/reach/reach-of-plan.ts';
export { openTerrain } from '../../src/terrain/ground/open-terrain.ts';
