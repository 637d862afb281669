export { openFileSource } from '../../src/cli/input/node-io.ts';
export { openElevation } from '../../src/terrain/open/open-elevation.ts';
