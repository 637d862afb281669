// Writes docs/plan.schema.json from the code that reads plan files.
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { importBundled } from './lib/bundle-source.mjs';
import { root } from './lib/run-program.mjs';

const { planJsonSchema } = await importBundled('src/plan/file/plan-json-schema.ts');
await writeFile(join(root, 'docs', 'plan.schema.json'), `${JSON.stringify(planJsonSchema(), null, 2)}\n`);
