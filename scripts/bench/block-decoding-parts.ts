export { openFileSource } from '../../src/cli/input/file-source.ts';
export { openElevation } from '../../src/terrain/open/open-elevation.ts';
