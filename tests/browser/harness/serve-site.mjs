import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'vite';
import { serveBuilt } from '../../../bin/serve.mjs';
import { root } from '../../../scripts/lib/run-program.mjs';

/** Builds the site into a folder of its own, so that no other build takes it away, and serves it as `npm start` does. */
export async function serveSite() {
  const outDir = join(root, 'build', `site-${process.pid}`);
  await inProduction(() => build({ root, logLevel: 'error', build: { outDir, emptyOutDir: true } }));
  const { server, address } = await serveBuilt(outDir, { port: 0 });
  const close = async () => {
    server.close();
    server.closeAllConnections();
    await rm(outDir, { recursive: true, force: true });
  };
  return { origin: new URL(address).origin, close };
}

/** A runner of tests calls its process one for tests, in which Vite would build a page without what only the real one has. */
async function inProduction(run) {
  const { NODE_ENV: before } = process.env;
  process.env.NODE_ENV = 'production';
  try {
    return await run();
  } finally {
    if (before === undefined) delete process.env.NODE_ENV;
    else process.env.NODE_ENV = before;
  }
}
