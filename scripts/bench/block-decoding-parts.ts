export { openFileSource } from '../../src/cli/file-source.ts';
export { openElevation } from '../../src/terrain/open-elevation.ts';
