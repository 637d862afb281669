// What the benchmark of the passes over every cell needs, in one module.
export { breached, USUAL_BREACH } from '../../src/siting/fields/breach.ts';
export { fallingPipe } from '../../src/siting/fields/falling-pipe.ts';
export { accumulation, flood } from '../../src/siting/fields/flood.ts';
export { governingLevel } from '../../src/siting/fields/governing-level.ts';
export { waysFrom } from '../../src/siting/fields/ways-from.ts';
