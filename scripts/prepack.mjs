// Builds what a package holds: the site in dist/ and the command line in build/cli. `npm pack` runs it.
import { rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'vite';
import { root, runNode } from './lib/run-program.mjs';

/** Built beside and swapped, so that whoever serves dist/ meanwhile never has half of it. */
async function buildSite() {
  const dist = join(root, 'dist');
  const fresh = join(root, 'build', `site-${process.pid}`);
  const stale = join(root, 'build', `site-${process.pid}-old`);
  await build({ root, logLevel: 'error', build: { outDir: fresh, emptyOutDir: true } });
  await rename(dist, stale).catch(() => {});
  await rename(fresh, dist);
  await rm(stale, { recursive: true, force: true });
}

await buildSite();
// The command line builds itself where it is older than its sources.
const { code, output } = await runNode(['bin/rillwright.mjs', 'help']);
if (code !== 0) throw new Error(`the command line ended with ${code}, expected 0: ${output}`);
