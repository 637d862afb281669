import { execFile, spawn } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { FETCH_LIMITS, rangeFetcher } from '../../src/cli/input/fetch-range.ts';
import { InputError } from '../../src/cli/input/io.ts';
import { OutputError, type Sink, unwritable, WatchedOutput, writeNewFile } from '../../src/cli/input/output.ts';
import { openAddressSource } from '../../src/terrain/bytes/address-source.ts';
import { runCommand } from './run-command.ts';

const PLAN = 'data/demo/plan.geojson';
const DEM = 'data/demo/dem.tif';
const ASSESS = ['bin/rillwright.mjs', 'assess', PLAN, '--dem', DEM];

const folder = mkdtempSync(join(tmpdir(), 'rillwright-output-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs the program itself, its standard output going to an open file; the status and what it says. */
async function ending(stdout: number | 'pipe', readNothing = false): Promise<{ code: number | null; err: string }> {
  const child = spawn(process.execPath, ASSESS, { stdio: ['ignore', stdout, 'pipe'] });
  let err = '';
  child.stderr?.on('data', (piece) => {
    err += piece;
  });
  if (readNothing) child.stdout?.destroy();
  const code = await new Promise<number | null>((done) => child.on('close', done));
  return { code, err };
}

beforeAll(async () => {
  // Built once before anything is asked of it.
  await promisify(execFile)(process.execPath, ['bin/rillwright.mjs', 'help']);
});

describe('an answer that cannot be written', () => {
  // POSIX: writing to /dev/full fails with ENOSPC, always. Source: Linux man page full(4).
  test('to a full disk is one line and status 3', async () => {
    const full = openSync('/dev/full', 'w');
    const { code, err } = await ending(full);
    closeSync(full);
    expect(err).toBe('rillwright: standard output: found no room left (ENOSPC), expected room for the answer\n');
    expect(code).toBe(3);
  });

  test('to nobody is no success, and needs no words', async () => {
    expect(await ending('pipe', true)).toEqual({ code: 141, err: '' });
  });

  test.each(['ENOSPC', 'EDQUOT', 'EFBIG'])('for %s tells that there is no room', (code) => {
    const error = unwritable('clip.tif', Object.assign(new Error('write'), { code }));
    expect(error).toBeInstanceOf(OutputError);
    expect(error.message).toBe(`clip.tif: found no room left (${code}), expected room for the answer`);
  });

  test('after a failure takes no further text', async () => {
    const failing: Sink = {
      on: () => undefined,
      write: (_, done) => {
        done(Object.assign(new Error('write'), { code: 'EPIPE' }));
        return false;
      },
    };
    const output = new WatchedOutput(failing, 'standard output');
    output.write('one');
    await expect(output.written()).rejects.toMatchObject({ why: 'closed' });
    expect(() => output.write('two')).toThrow(OutputError);
  });
});

describe('a file', () => {
  test('appears whole, under its name only, and is not written over', async () => {
    const place = join(folder, 'whole');
    await writeNewFile(place, new Uint8Array(100_000).fill(7));
    expect(readFileSync(place)).toEqual(Buffer.alloc(100_000, 7));
    await expect(writeNewFile(place, new Uint8Array(1))).rejects.toThrow(InputError);
    expect(readFileSync(place)).toHaveLength(100_000);
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  test('that there is no room for leaves nothing behind, and status 3', async () => {
    // POSIX: a process may be kept from writing files above so many blocks, which fails with EFBIG. Source: POSIX ulimit.
    const out = join(folder, 'large.tif');
    const line = `ulimit -f 64; exec "${process.execPath}" bin/rillwright.mjs clip ${PLAN} --dem ${DEM} --out ${out}`;
    const child = spawn('sh', ['-c', line], { stdio: ['ignore', 'ignore', 'pipe'] });
    let err = '';
    child.stderr.on('data', (piece) => {
      err += piece;
    });
    const code = await new Promise<number | null>((done) => child.on('close', done));
    expect(err).toMatch(/large\.tif: found no room left \(EFBIG\)/);
    expect(code).toBe(3);
    expect(readdirSync(folder).filter((name) => name.includes('large'))).toEqual([]);
  });

  test('that is being written is gone after an interruption', async () => {
    const script = join(folder, 'interrupted.mjs');
    const beside = join(folder, 'half.tif');
    // A file system that never gets done: the last step before the name waits for ever.
    writeFileSync(
      script,
      `import { syncBuiltinESMExports } from 'node:module';
       import promises from 'node:fs/promises';
       promises.link = () => { process.stdout.write('half'); return new Promise((go) => setTimeout(go, 1e8)); };
       syncBuiltinESMExports();
       process.argv = [process.argv[0], 'rillwright', 'clip', ${JSON.stringify(PLAN)}, '--dem', ${JSON.stringify(DEM)}, '--out', ${JSON.stringify(beside)}];
       await import(${JSON.stringify(join(process.cwd(), 'bin/rillwright.mjs'))});`,
    );
    const child = spawn(process.execPath, [script], { stdio: ['ignore', 'pipe', 'inherit'] });
    await new Promise((half) => child.stdout.once('data', half));
    expect(readdirSync(folder).some((name) => name.includes('half.tif'))).toBe(true);
    child.kill('SIGINT');
    const code = await new Promise<number | null>((done) => child.on('close', done));
    expect(code).toBe(130);
    expect(readdirSync(folder).filter((name) => name.includes('half.tif'))).toEqual([]);
  });
});

describe('elevations', () => {
  test('from a pipe are refused, with the reason', async () => {
    const pipe = join(folder, 'pipe');
    await promisify(execFile)('mkfifo', [pipe]);
    for (const path of [pipe, '/dev/null']) {
      const { code, err } = await runCommand(['profile', 'line', '--dem', path], { line: LINE });
      expect(code).toBe(2);
      expect(err).toMatch(/found a pipe or a device, expected a file: elevations are read here and there/);
    }
  });

  test('from a folder are refused as such', async () => {
    const { err } = await runCommand(['profile', 'line', '--dem', folder], { line: LINE });
    expect(err).toMatch(/found a folder, expected a file/);
  });
});

const LINE = JSON.stringify({
  type: 'LineString',
  coordinates: [
    [-3, 47],
    [-2.9, 47],
  ],
});

describe('a server of elevations', () => {
  let server: Server;
  let base = '';
  /** Says the file is without end, and sends every part of it, slowly or not. */
  beforeAll(async () => {
    server = createServer((request, reply) => {
      const [, first = '0', last = '0'] = /^bytes=(\d+)-(\d+)$/.exec(request.headers.range ?? '') ?? [];
      const length = Number(last) - Number(first) + 1;
      reply.writeHead(206, {
        'content-range': `bytes ${first}-${last}/${1e12}`,
        etag: '"one"',
        'content-length': length,
      });
      if (request.url === '/slow') {
        const drip = setInterval(() => reply.write(Buffer.alloc(1)), 50);
        reply.on('close', () => clearInterval(drip));
      } else reply.end(Buffer.alloc(length));
    });
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  });
  afterAll(() => {
    server.closeAllConnections();
    server.close();
  });

  async function read(path: string, limits: Partial<typeof FETCH_LIMITS>): Promise<string> {
    const source = await openAddressSource(`${base}${path}`, rangeFetcher({ ...FETCH_LIMITS, ...limits }));
    if (!source.ok) return source.problems.map(({ found }) => found).join();
    try {
      for (let k = 0; k < 100; k += 1) await source.value.read([{ offset: 1e6 * (k + 1), length: 1e6 }]);
      return 'read';
    } catch (error) {
      return (error as { problem?: { found: string } }).problem?.found ?? String(error);
    }
  }

  test('that sends without end is given up at the limit of bytes', async () => {
    const MB = 1024 ** 2;
    expect(await read('/', { bytes: 8 * MB })).toBe('more than 8 MB in all; download the file first');
    expect(await read('/', { bytes: 200 * MB })).toBe('read');
  });

  test('that is never silent and never done is given up at the limit of waiting', async () => {
    expect(await read('/slow', { waiting: 400 })).toBe('more than 0.4 s of waiting in all; download the file first');
  });

  test('is borne in silence for 12 s', () => {
    expect(FETCH_LIMITS.silence).toBe(12_000);
  });

  test('that is not there is told with the reason', async () => {
    const free = await new Promise<number>((found) => {
      const other = createServer().listen(0, '127.0.0.1', () => {
        const { port } = other.address() as AddressInfo;
        other.close(() => found(port));
      });
    });
    const { code, err } = await runCommand(['profile', 'line', '--dem', `http://127.0.0.1:${free}/dem.tif`], {
      line: LINE,
    });
    expect(code).toBe(2);
    expect(err).toMatch(/found nobody listens there \(ECONNREFUSED\)/);
    const unknown = await runCommand(['profile', 'line', '--dem', 'http://no-such-machine.invalid/dem.tif'], {
      line: LINE,
    });
    expect(unknown.err).toMatch(/found (no machine of that name is known|the name could not be looked up now) \(E/);
  });
});
