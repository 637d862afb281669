// What the benchmark of the relief needs, in one module.
export { openFileSource } from '../../src/cli/input/node-io.ts';
export { projectionOf } from '../../src/geodesy/projection.ts';
export { hornGradients } from '../../src/relief/levels/horn.ts';
export { ReliefSource } from '../../src/relief/levels/relief-source.ts';
export { terrainCharacter } from '../../src/relief/levels/terrain-character.ts';
export { contourTile, joinPieces } from '../../src/relief/tiles/contour-tile.ts';
export { contourPieces, crossing } from '../../src/relief/tiles/marching-squares.ts';
export { lightVector, reliefTile, shade } from '../../src/relief/tiles/relief-tile.ts';
export { slopeTile } from '../../src/relief/tiles/slope-tile.ts';
export { placedGrid } from '../../src/terrain/grid/placed-grid.ts';
export { openElevation } from '../../src/terrain/open/open-elevation.ts';
