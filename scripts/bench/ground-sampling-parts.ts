/** What the benchmark of sampling takes from the program, bundled in one piece. */
export { projectionOf } from '../../src/geodesy/projection.ts';
export { sampleBilinear } from '../../src/terrain/bilinear.ts';
export { groundAlong } from '../../src/terrain/ground-along.ts';
export { MemoryGrid } from '../../src/terrain/memory-grid.ts';
export { placedGrid } from '../../src/terrain/placed-grid.ts';
