import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { FETCH_LIMITS, rangeFetcher } from '../../src/cli/input/fetch-range.ts';
import { openAddressSource } from '../../src/terrain/bytes/address-source.ts';
import { openElevation } from '../../src/terrain/open/open-elevation.ts';
import { fixtureBytes } from '../terrain/fixture-files.ts';
import { runCommand } from './run-command.ts';

// Range requests: RFC 9110, sections 14 and 15.3.7. The servers below break it in one way each.

const FILE = Buffer.from(fixtureBytes('large-lzw'));

type Fault = (reply: ServerResponse, range: { readonly first: number; readonly last: number }, address: string) => void;

function send(reply: ServerResponse, { first, last }: { first: number; last: number }, headers: object = {}): Buffer {
  const part = FILE.subarray(first, last + 1);
  const range = `bytes ${first}-${last}/${FILE.length}`;
  reply.writeHead(206, { 'content-range': range, 'content-length': part.length, etag: '"one"', ...headers });
  return part;
}

const FAULTS: Readonly<Record<string, Fault>> = {
  'says the file is ten times as long': (reply, range) => {
    reply.end(send(reply, range, { 'content-range': `bytes ${range.first}-${range.last}/${10 * FILE.length}` }));
  },
  'says the file is one byte long': (reply, range) => {
    reply.end(send(reply, range, { 'content-range': `bytes ${range.first}-${range.last}/1` }));
  },
  'breaks off in the middle of a part': (reply, range) => {
    const part = send(reply, range);
    reply.write(part.subarray(0, part.length >> 1));
    setTimeout(() => reply.destroy(), 20);
  },
  'sends another part than was asked for': (reply, { first, last }) => {
    reply.end(send(reply, { first: first + 7, last: Math.min(last + 7, FILE.length - 1) }));
  },
  'changes the file meanwhile': (reply, range) => {
    reply.end(send(reply, range, { etag: `"${range.first}"` }));
  },
  'sends its answer compressed': (reply, range) => {
    const packed = gzipSync(FILE.subarray(range.first, range.last + 1).subarray(0, 900));
    send(reply, range, { 'content-encoding': 'gzip', 'content-length': packed.length });
    reply.end(packed);
  },
  'sends on and on': (reply, range) => {
    send(reply, range, { 'content-length': 1e12 });
    const more = setInterval(() => reply.write(Buffer.alloc(64 * 1024)), 1);
    reply.on('close', () => clearInterval(more));
  },
  'sends to and fro without end': (reply, _, address) => {
    reply.writeHead(302, { location: address }).end();
  },
  'says nothing': () => undefined,
  'says nothing more after the first bytes': (reply, range) => {
    reply.write(send(reply, range).subarray(0, 100));
  },
  'answers with a page': (reply) => {
    reply.writeHead(206, { 'content-type': 'text/html', 'content-range': 'bytes 0-40/41', 'content-length': 41 });
    reply.end(`<!doctype html><p>Please log in.${' '.repeat(9)}`);
  },
};

const names = Object.keys(FAULTS);

describe('a server of elevation files that', () => {
  let server: Server;
  let base = '';
  const answer = (request: IncomingMessage, reply: ServerResponse): void => {
    const [, fault = '', when = ''] = request.url?.split('/') ?? [];
    const [, first = '0', last = '0'] = /^bytes=(\d+)-(\d+)$/.exec(request.headers.range ?? '') ?? [];
    const range = { first: Number(first), last: Math.min(Number(last), FILE.length - 1) };
    if (when === 'later' && range.first === 0) reply.end(send(reply, range));
    else FAULTS[names[Number(fault)] ?? '']?.(reply, range, request.url ?? '');
  };
  beforeAll(async () => {
    server = createServer(answer);
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  });
  afterAll(() => {
    server.closeAllConnections();
    server.close();
  });

  const fetchRange = rangeFetcher({ ...FETCH_LIMITS, silence: 1500 });

  async function told(address: string): Promise<string> {
    const source = await openAddressSource(address, fetchRange);
    if (!source.ok) return source.problems.map(({ code }) => code).join();
    const opened = await openElevation(source.value, { verticalUnit: 'metre' });
    if (opened.kind !== 'opened') return opened.problems.map(({ code }) => code).join();
    const { columns, rows } = opened.value;
    try {
      await opened.value.read({ column: 0, row: 0, columns, rows });
      return 'read';
    } catch (error) {
      const problem = (error as { problem?: { code: string } }).problem;
      if (problem === undefined) throw error;
      return problem.code;
    }
  }

  test.each(names.map((name, i) => [name, i] as const))('%s is refused by name', async (_, fault) => {
    const whole = await told(`${base}/${fault}/now/dem.tif`);
    const later = await told(`${base}/${fault}/later/dem.tif`);
    for (const code of [whole, later]) {
      expect(code).toMatch(/^(address-(size|short|changed|silent|status)|other-format|outside-file|not-a-tiff|read)$/);
    }
    // A length that is only claimed may be read past, and a file that has not changed by its first part is the same.
    expect([whole, later]).not.toEqual(['read', 'read']);
  });

  test('ends a command with 2 and one line', async () => {
    const LINE = JSON.stringify({
      type: 'LineString',
      coordinates: [
        [-3, 47],
        [-2.9, 47],
      ],
    });
    for (const [fault, name] of names.entries()) {
      if (name.startsWith('says nothing')) continue;
      const args = ['profile', 'line', '--dem', `${base}/${fault}/now/dem.tif`, '--dem-unit', 'metre'];
      const { code, err } = await runCommand(args, { line: LINE });
      expect(err, name).not.toMatch(/fault of the program/);
      if (code === 2) expect(err.trimEnd().split('\n'), name).toHaveLength(1);
      else expect(code, name).toBe(0);
    }
  });
});
