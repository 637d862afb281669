import { mkdir, rm } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';
import { root } from './run-program.mjs';

/**
 * Bundles a TypeScript module for Node and imports it: Node 20 cannot read TypeScript itself, and a bundle runs as fast as
 * the built command line, which a benchmark needs.
 */
export async function importBundled(file) {
  const name = relative(root, join(root, file)).replaceAll(/[^A-Za-z0-9]+/g, '-');
  const outDir = join(root, 'build', 'bundled', `${name}-${process.pid}`);
  await mkdir(outDir, { recursive: true });
  try {
    await build({
      root,
      configFile: false,
      logLevel: 'error',
      publicDir: false,
      build: {
        ssr: join(root, file),
        outDir,
        target: 'node20',
        minify: false,
        rollupOptions: { output: { entryFileNames: 'entry.mjs', codeSplitting: false } },
      },
    });
    return await import(pathToFileURL(join(outDir, 'entry.mjs')).href);
  } finally {
    await rm(outDir, { recursive: true, force: true });
  }
}
