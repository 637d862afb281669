import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The project's folder. */
export const root = fileURLToPath(new URL('../../', import.meta.url));

/** A command line tool of an installed package, as arguments to Node: no shell, the same on every system. */
export function tool(path) {
  return fileURLToPath(new URL(`../../node_modules/${path}`, import.meta.url));
}

/**
 * Runs Node with arguments and waits for its end. With `show` its output appears as it comes; otherwise it is returned.
 */
export function runNode(args, { show = false, env = process.env } = {}) {
  return new Promise((resolve, reject) => {
    const stdio = show ? 'inherit' : ['ignore', 'pipe', 'pipe'];
    const child = spawn(process.execPath, args, { cwd: root, env, stdio });
    const pieces = [];
    child.stdout?.on('data', (piece) => pieces.push(piece));
    child.stderr?.on('data', (piece) => pieces.push(piece));
    child.once('error', reject);
    child.once('close', (code, signal) => {
      resolve({ code: code ?? 1, signal, output: Buffer.concat(pieces).toString('utf8') });
    });
  });
}
