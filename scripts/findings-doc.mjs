// Writes docs/findings.md from the catalogue of findings.
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { importBundled } from './lib/bundle-source.mjs';
import { root } from './lib/run-program.mjs';

const { findingsDocument } = await importBundled('src/report/findings/findings-document.ts');
await writeFile(join(root, 'docs', 'findings.md'), findingsDocument());
console.log('docs/findings.md written');
