import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { importBundled } from '../../../scripts/lib/bundle-source.mjs';
import { root } from '../../../scripts/lib/run-program.mjs';

const folder = join('tests', 'browser');

/**
 * All cases, file by file. A file exports `cases`: an object from a sentence to a function of `{page, context, origin,
 * browser, allowOrigin}`, or to `{options, run}` with options for the browser context.
 */
export async function loadCases(wanted) {
  const names = (await readdir(join(root, folder))).filter((name) => /\.browser\.(?:mjs|ts)$/.test(name)).sort();
  const cases = [];
  for (const file of names) {
    const module = await importCases(file);
    if (typeof module.cases !== 'object') throw new Error(`${file}: found no export "cases", expected one`);
    for (const [name, entry] of Object.entries(module.cases)) {
      const { run, options } = typeof entry === 'function' ? { run: entry, options: {} } : entry;
      cases.push({ file, name, run, options });
    }
  }
  const chosen = cases.filter(({ file, name }) => wanted.every((part) => file.includes(part) || name.includes(part)));
  if (chosen.length === 0) throw new Error(`${folder}: found no case ${wanted.join(' ')}, expected at least one`);
  return chosen;
}

function importCases(file) {
  const path = join(folder, file);
  return file.endsWith('.ts') ? importBundled(path) : import(pathToFileURL(join(root, path)).href);
}
