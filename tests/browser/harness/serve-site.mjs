import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'vite';
import { root } from '../../../scripts/lib/run-program.mjs';
import { listen } from '../../../scripts/lib/site-server.mjs';

/** Builds the site into a folder of its own, so that no other build takes it away, and serves it as `npm start` does. */
export async function serveSite() {
  const outDir = join(root, 'build', `site-${process.pid}`);
  await inProduction(() => build({ root, logLevel: 'error', build: { outDir, emptyOutDir: true } }));
  const server = await listen({ port: 0 });
  await server.fill(outDir);
  const close = async () => {
    await server.close();
    await rm(outDir, { recursive: true, force: true });
  };
  return { origin: `http://127.0.0.1:${server.port}`, close };
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
