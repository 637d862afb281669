/** What the benchmark of sampling takes from the program, bundled in one piece. */
export { projectionOf } from '../../src/geodesy/projection.ts';
export { MemoryGrid } from '../../src/terrain/grid/memory-grid.ts';
export { placedGrid } from '../../src/terrain/grid/placed-grid.ts';
export { sampleBilinear } from '../../src/terrain/ground/bilinear.ts';
export { groundAlong } from '../../src/terrain/ground/ground-along.ts';
export { groundAt } from '../../src/terrain/ground/ground-at.ts';
