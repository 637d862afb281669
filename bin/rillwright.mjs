#!/usr/bin/env node
/** Runs the built command line; in a checkout it is built first when it is missing or older than its sources. */
import { mkdir, readdir, rename, rm, stat, utimes } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const builds = join(root, 'build');
const target = join(builds, 'cli');
const sources = ['src', 'data', 'vite.cli.config.ts', 'package.json'];
const lock = join(builds, 'cli.lock');
/** A build takes a few seconds; a lock this old was left by one that died. */
const LOCK_MS = 120_000;
const PAUSE_MS = 100;

/** Time a file, or a folder with all that is in it, was last changed; 0 when there is none. */
async function changed(path) {
  const about = await stat(path).catch(() => null);
  if (about === null) return 0;
  if (!about.isDirectory()) return about.mtimeMs;
  const times = await Promise.all((await readdir(path)).map((name) => changed(join(path, name))));
  return Math.max(about.mtimeMs, ...times);
}

async function isFresh() {
  const built = (await stat(join(target, 'main.mjs')).catch(() => null))?.mtimeMs ?? 0;
  const newest = await Promise.all(sources.map((path) => changed(join(root, path))));
  return built > 0 && built >= Math.max(...newest);
}

/** Builds beside the old one and swaps the folders, so that nobody runs half a build. */
async function buildNew() {
  const started = new Date();
  const fresh = join(builds, `cli-${process.pid}`);
  const stale = join(builds, `cli-${process.pid}-old`);
  const { build } = await import('vite');
  const configFile = join(root, 'vite.cli.config.ts');
  await build({ root, configFile, logLevel: 'error', build: { outDir: fresh, emptyOutDir: true } });
  // A source that changes during the build must count as newer than the build.
  await utimes(join(fresh, 'main.mjs'), started, started);
  await rename(target, stale).catch(() => {});
  await rename(fresh, target);
  await rm(stale, { recursive: true, force: true });
}

/** One build at a time; whoever waited looks again whether there is still something to do. */
async function buildWhenStale() {
  await mkdir(builds, { recursive: true });
  while (!(await isFresh())) {
    const taken = await mkdir(lock).then(
      () => true,
      () => false,
    );
    if (taken) {
      try {
        if (!(await isFresh())) await buildNew();
        return;
      } finally {
        await rm(lock, { recursive: true, force: true });
      }
    }
    const since = await changed(lock);
    if (since > 0 && Date.now() - since > LOCK_MS) await rm(lock, { recursive: true, force: true });
    await new Promise((done) => setTimeout(done, PAUSE_MS));
  }
}

if (process.argv[2] === 'serve') {
  const { serve } = await import('./serve.mjs');
  const code = await serve(process.argv.slice(3));
  if (code !== null) process.exitCode = code;
} else await runCommandLine();

async function runCommandLine() {
  try {
    // An installed package has no sources, and is never stale.
    if ((await changed(join(root, 'src'))) > 0) await buildWhenStale();
    const { main, nodeIo } = await import(pathToFileURL(join(target, 'main.mjs')).href);
    process.exitCode = await main(process.argv.slice(2), nodeIo);
  } catch (error) {
    console.error(
      `rillwright: the command line cannot be built or started, expected npm ci to have run: ${error.message}`,
    );
    process.exitCode = 1;
  }
}
