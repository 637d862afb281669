/** What the benchmark of the height bands takes from the program, bundled in one piece. */
export { projectionOf } from '../../src/geodesy/projection.ts';
export { groundAt } from '../../src/terrain/ground-at.ts';
export { inferHeightAccuracy } from '../../src/terrain/height-accuracy-inferred.ts';
export { varianceOfDifference } from '../../src/terrain/height-variogram.ts';
export { MemoryGrid } from '../../src/terrain/memory-grid.ts';
export { openElevation } from '../../src/terrain/open-elevation.ts';
export { cellOnGround, cellSize, placedGrid } from '../../src/terrain/placed-grid.ts';
