import { build, preview } from 'vite';
import { root } from '../../../scripts/lib/run-program.mjs';

/** Builds the site once and serves it on a free port of this machine. */
export async function serveSite() {
  await build({ root, logLevel: 'error' });
  const server = await preview({ root, logLevel: 'silent', preview: { host: '127.0.0.1', port: 0, open: false } });
  const { port } = server.httpServer.address();
  return { origin: `http://127.0.0.1:${port}`, close: () => server.close() };
}
