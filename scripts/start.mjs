// Builds the site and serves it on this machine only; prints its address and nothing else.
import { parseArgs } from 'node:util';
import { build, preview } from 'vite';
import { root } from './lib/run-program.mjs';

const { values } = parseArgs({ options: { port: { type: 'string' } } });
const asked = values.port;
const port = asked === undefined ? 4173 : Number(asked);
if (!Number.isInteger(port) || port < 1 || port > 65_535) {
  console.error(`--port: found ${asked}, expected a whole number from 1 to 65535`);
  process.exit(2);
}

await build({ root, logLevel: 'error' });
try {
  // Without a port asked for, the next free one is taken.
  const server = await preview({
    root,
    logLevel: 'silent',
    preview: { host: '127.0.0.1', port, strictPort: asked !== undefined, open: false },
  });
  const address = server.httpServer.address();
  console.log(`Rillwright is at http://127.0.0.1:${address.port}/ (Ctrl+C ends it)`);
} catch (error) {
  console.error(`Cannot serve on port ${port}: ${error.message}`);
  process.exit(1);
}
