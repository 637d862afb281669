import { execFile, spawn } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, stat } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { root } from '../../../scripts/lib/run-program.mjs';

const run = promisify(execFile);
/** On Windows the tools of npm are scripts of the shell. */
const shell = process.platform === 'win32';

/**
 * The program as `npm pack` makes it, installed into an empty folder without a registry: what it weighs, what it holds, its
 * command line by npx, and its page.
 */
export async function installedPackage() {
  const folder = await mkdtemp(join(tmpdir(), 'rillwright-package-'));
  const npm = (args, cwd) => run('npm', [...args, '--loglevel', 'error'], { cwd, shell });
  await npm(['pack', '--pack-destination', folder], root);
  const [tarball] = (await readdir(folder)).filter((name) => name.endsWith('.tgz'));
  const packed = join(folder, tarball);
  await npm(['init', '--yes'], folder);
  await npm(['install', packed, '--offline', '--no-audit', '--no-fund'], folder);
  const inside = join(folder, 'node_modules', 'rillwright');
  return {
    bytes: (await stat(packed)).size,
    /** Packages that came with it. */
    installed: (await readdir(join(folder, 'node_modules'))).filter((name) => !name.startsWith('.')),
    path: (name) => join(inside, name),
    text: (name) => readFile(join(inside, name), 'utf8'),
    /** What a command of it prints. */
    command: async (args) => (await run('npx', ['--offline', 'rillwright', ...args], { cwd: folder, shell })).stdout,
    serve: () => served(inside),
    remove: () => rm(folder, { recursive: true, force: true }),
  };
}

/** `rillwright serve` on a free port, and how to end it. */
async function served(inside) {
  const port = await freePort();
  const child = spawn(process.execPath, [join(inside, 'bin', 'rillwright.mjs'), 'serve', '--port', String(port)]);
  const said = await new Promise((heard, failed) => {
    child.stdout.once('data', (bytes) => heard(String(bytes)));
    child.once('exit', (code) => failed(new Error(`rillwright serve ended with ${code}`)));
  });
  const [origin] = /http:\/\/[\d.]+:\d+/.exec(said) ?? [];
  if (origin === undefined) throw new Error(`found ${said}, expected an address`);
  return { origin, close: () => child.kill() };
}

function freePort() {
  return new Promise((found, failed) => {
    const server = createServer();
    server.once('error', failed);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => found(port));
    });
  });
}
