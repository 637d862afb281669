import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createServer, get } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serveBuilt } from '../../bin/serve.mjs';
import { siteHeaders } from '../../bin/site-headers.mjs';
import { root } from '../../scripts/lib/run-program.mjs';

let folder = '';
let served: Awaited<ReturnType<typeof serveBuilt>>;

/** Asks as it is told: the path is not tidied as a browser would tidy it. */
function ask(
  path: string,
  method = 'GET',
): Promise<{ status: number; headers: Record<string, unknown>; text: string }> {
  return new Promise((resolve, reject) => {
    const asked = get({ host: '127.0.0.1', port: new URL(served.address).port, path, method }, (reply) => {
      let text = '';
      reply.setEncoding('utf8').on('data', (part) => {
        text += part;
      });
      reply.on('end', () => resolve({ status: reply.statusCode ?? 0, headers: reply.headers, text }));
    });
    asked.on('error', reject);
  });
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'rillwright-site-'));
  await mkdir(join(folder, 'site', 'assets'), { recursive: true });
  await writeFile(join(folder, 'beside.txt'), 'not of the site');
  await writeFile(join(folder, 'site', 'index.html'), await readFile(join(root, 'index.html')));
  await writeFile(join(folder, 'site', 'assets', 'page-AbCdEf12.js'), 'export {};');
  served = await serveBuilt(join(folder, 'site'), { port: 0 });
});
afterAll(async () => {
  served.server.close();
  served.server.closeAllConnections();
  await rm(folder, { recursive: true, force: true });
});

describe('the site on this machine', () => {
  it('answers a missing asset with 404 and not with the page', async () => {
    for (const path of ['/assets/gone-AbCdEf12.js', '/plans', '/assets', '/assets/']) {
      const { status, text } = await ask(path);
      expect([path, status]).toEqual([path, 404]);
      expect(text).not.toContain('<');
    }
  });

  it('sends its headers with every answer, and lets only hashed names be kept', async () => {
    const page = await ask('/');
    expect(page.headers).toMatchObject(siteHeaders(page.text));
    expect(page.headers['content-security-policy']).toContain("frame-ancestors 'none'");
    expect(page.headers['cache-control']).toBe('no-cache');
    const asset = await ask('/assets/page-AbCdEf12.js');
    expect(asset.headers['cache-control']).toContain('immutable');
    expect(asset.headers['content-type']).toMatch(/^text\/javascript/);
    expect((await ask('/gone')).headers['x-content-type-options']).toBe('nosniff');
  });

  it('gives nothing from outside its folder and takes nothing in', async () => {
    for (const path of [
      '/../beside.txt',
      '/assets/../../beside.txt',
      '/%2e%2e/beside.txt',
      '/..%2fbeside.txt',
      '/%00',
      '/%',
    ]) {
      expect([path, (await ask(path)).status]).toEqual([path, 404]);
    }
    expect((await ask('/', 'POST')).status).toBe(405);
  });
});

describe('npm start', () => {
  it('refuses a port that is taken and says what to do', async () => {
    const other = createServer((_, reply) => reply.end());
    await new Promise<void>((ready) => other.listen(0, '127.0.0.1', ready));
    const address = other.address();
    const port = typeof address === 'object' && address !== null ? address.port : 0;
    const child = spawn(process.execPath, [join(root, 'scripts', 'start.mjs'), '--port', String(port)]);
    let said = '';
    child.stderr.setEncoding('utf8').on('data', (part) => {
      said += part;
    });
    const code = await new Promise((ended) => child.once('close', ended));
    other.closeAllConnections();
    other.close();
    expect(code).toBe(1);
    expect(said).toContain(`Port ${port} is taken by another program`);
    expect(said).toMatch(/npm start -- --port \d+/);
    expect(said).toContain('belong to the port');
  });
});
