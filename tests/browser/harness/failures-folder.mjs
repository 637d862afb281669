import { join } from 'node:path';
import { root } from '../../../scripts/lib/run-program.mjs';

/** Where the picture of a page whose case failed is kept. */
export const failuresFolder = join(root, 'tests', 'browser', 'failures');
