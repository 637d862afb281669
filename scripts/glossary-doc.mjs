// Writes docs/glossary.md from the words that the page shows.
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { importBundled } from './lib/bundle-source.mjs';
import { root } from './lib/run-program.mjs';

const { glossaryDocument } = await importBundled('src/report/glossary/glossary.ts');
await writeFile(join(root, 'docs', 'glossary.md'), glossaryDocument());
console.log('docs/glossary.md written');
