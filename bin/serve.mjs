import { readFile, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { siteHeaders } from './site-headers.mjs';
import { serveFolder } from './site-server.mjs';

const site = join(dirname(fileURLToPath(import.meta.url)), '..', 'dist');

export const serveUsage = `rillwright serve [--port 47473]

The planner as a page on this machine, for this machine only; Ctrl+C ends it. Plans are kept by the browser under this
address, port included: another port is another set of plans.

  --port         a whole number from 1 to 65535; 47473 when not given
`;

/** A port of our own: plans that a browser keeps belong to the port they were made on. */
export const usualPort = 47473;

/** Serves a built site with the headers that its page asks for. */
export async function serveBuilt(folder, { port }) {
  const headers = siteHeaders(await readFile(join(folder, 'index.html'), 'utf8'));
  return serveFolder(folder, { port, headersFor: () => headers });
}

/** Serves the built site until it is ended; resolves with an exit status where it cannot. */
export async function serve(args) {
  const asked = portOf(args);
  if (asked.code !== undefined) return asked.code;
  if (!(await stat(join(site, 'index.html')).catch(() => null))) {
    console.error(`rillwright: found no built page, expected it beside the program: npm run build makes it`);
    return 2;
  }
  try {
    const { address } = await serveBuilt(site, { port: asked.port });
    console.log(`Rillwright is at ${address} (Ctrl+C ends it)`);
    return null;
  } catch (error) {
    const taken = error.code === 'EADDRINUSE';
    const expected = taken ? 'a free one: end what runs there, or say another with --port' : error.message;
    console.error(`rillwright: --port: found ${asked.port}${taken ? ', which is taken' : ''}, expected ${expected}`);
    return 2;
  }
}

function portOf(args) {
  try {
    const { values } = parseArgs({ args, options: { port: { type: 'string' }, help: { type: 'boolean' } } });
    if (values.help) {
      process.stdout.write(serveUsage);
      return { code: 0 };
    }
    const port = values.port === undefined ? usualPort : Number(values.port);
    if (Number.isInteger(port) && port >= 1 && port <= 65_535) return { port };
    console.error(`rillwright: --port: found ${values.port}, expected a whole number from 1 to 65535`);
  } catch (error) {
    console.error(`rillwright: ${error.message.split('\n', 1)[0]}, expected --port or nothing`);
  }
  return { code: 2 };
}
