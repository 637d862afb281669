// Writes the tables of docs/diagnosis.md: the causes as the program has them, and how often their ranking is right.
// `--causes` leaves the second alone, which simulates a thousand rams and takes some minutes.
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { importBundled } from './lib/bundle-source.mjs';
import { root } from './lib/run-program.mjs';

const { causesTable, documentCases, shareTables } = await importBundled('tests/diagnosis/share-document.ts');
const path = join(root, 'docs', 'diagnosis.md');
let text = await readFile(path, 'utf8');
text = between(text, 'causes', causesTable());
if (!process.argv.includes('--causes')) text = between(text, 'shares', shareTables(documentCases()));
await writeFile(path, text);
console.log('docs/diagnosis.md written');

/** Puts a table between its two marks. */
function between(document, name, table) {
  const [start, end] = [`<!-- ${name} -->`, `<!-- /${name} -->`];
  const [from, to] = [document.indexOf(start), document.indexOf(end)];
  if (from < 0 || to < from)
    throw new Error(`docs/diagnosis.md: found no marks of ${name}, expected ${start} … ${end}`);
  return `${document.slice(0, from + start.length)}\n${table}\n${document.slice(to)}`;
}
