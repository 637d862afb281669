// Builds the site and serves it on this machine only; prints its address and nothing else.
import { readdir, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { build } from 'vite';
import { serveBuilt, usualPort } from '../bin/serve.mjs';
import { root } from './lib/run-program.mjs';

const { values } = parseArgs({ options: { port: { type: 'string' } } });
const port = values.port === undefined ? usualPort : Number(values.port);
if (!Number.isInteger(port) || port < 1 || port > 65_535) {
  console.error(`--port: found ${values.port}, expected a whole number from 1 to 65535`);
  process.exit(2);
}

/** Each start builds into a folder of its own: another one that runs keeps its files. */
const folder = join(root, 'build', `started-${process.pid}`);

try {
  // Asked for first: a build that cannot be served is waited for in vain.
  await tryPort();
  await clearLeft();
  await build({ root, logLevel: 'error', build: { outDir: folder, emptyOutDir: true } });
  const { server, address } = await serveBuilt(folder, { port });
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.once(signal, () => void end(server));
  console.log(`Rillwright is at ${address} (Ctrl+C ends it)`);
} catch (error) {
  console.error(await refusal(error));
  await rm(folder, { recursive: true, force: true });
  process.exitCode = 1;
}

/** Takes the port for a moment. */
async function tryPort() {
  const server = createServer();
  await new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ port, host: '127.0.0.1' }, resolve);
  });
  await new Promise((resolve) => server.close(resolve));
}

async function end(server) {
  server.close();
  server.closeAllConnections();
  await rm(folder, { recursive: true, force: true });
  process.exit(0);
}

/** Why the port was not given, and what to do. */
async function refusal(error) {
  if (error.code === 'EACCES') return `Port ${port} is not given to this user: choose one from 1024 on with --port.`;
  if (error.code !== 'EADDRINUSE') return `Cannot build or serve: ${error.message}`;
  const other = `To use another port: npm start -- --port ${port === 5000 ? 5001 : 5000}`;
  const kept = 'Plans that a browser keeps belong to the port they were made on.';
  if (await isOurs()) return `Rillwright already runs at http://127.0.0.1:${port}/: open it there.\n${other}. ${kept}`;
  return `Port ${port} is taken by another program: end that program, or choose another port.\n${other}. ${kept}`;
}

async function isOurs() {
  try {
    const reply = await fetch(`http://127.0.0.1:${port}/`, { signal: AbortSignal.timeout(2000) });
    return /<title>Rillwright<\/title>/.test(await reply.text());
  } catch {
    return false;
  }
}

/** Takes away what starts that were killed have left. */
async function clearLeft() {
  const names = await readdir(join(root, 'build')).catch(() => []);
  for (const name of names) {
    const pid = Number(/^started-(\d+)$/.exec(name)?.[1]);
    if (Number.isNaN(pid) || isAlive(pid)) continue;
    await rm(join(root, 'build', name), { recursive: true, force: true });
  }
}

function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}
