/** What the benchmark of the height bands takes from the program, bundled in one piece. */
export { projectionOf } from '../../src/geodesy/projection.ts';
export { averagingError, roughSlope } from '../../src/terrain/accuracy/averaging.ts';
export { inferHeightAccuracy } from '../../src/terrain/accuracy/height-accuracy-inferred.ts';
export { varianceOfDifference } from '../../src/terrain/accuracy/height-variogram.ts';
export { MemoryGrid } from '../../src/terrain/grid/memory-grid.ts';
export { cellOnGround, cellSize, placedGrid } from '../../src/terrain/grid/placed-grid.ts';
export { groundAt } from '../../src/terrain/ground/ground-at.ts';
export { openElevation } from '../../src/terrain/open/open-elevation.ts';
