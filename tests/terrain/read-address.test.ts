import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fetchRange } from '../../src/cli/input/node-io.ts';
import { joinSlices, openAddressSource } from '../../src/terrain/bytes/address-source.ts';
import type { AskRange } from '../../src/terrain/bytes/range-server.ts';
import { openElevation } from '../../src/terrain/open/open-elevation.ts';
import { fixtureBytes } from './fixture-files.ts';

// Range requests as RFC 9110, section 14, has them, against a server on this machine.

const FILE = Buffer.from(fixtureBytes('large-lzw'));

/** Answers like a server of files, or with one of the faults that the first part of the path names. */
function answer(request: IncomingMessage, reply: ServerResponse, seen: { bytes: number; requests: number }): void {
  const fault = request.url?.split('/')[1] ?? '';
  const range = /^bytes=(\d+)-(\d+)$/.exec(request.headers.range ?? '');
  seen.requests++;
  if (fault === 'missing') {
    reply.writeHead(404).end('nothing here');
    return;
  }
  if (range === null || fault === 'whole') {
    reply.writeHead(200, { 'content-length': FILE.length });
    reply.end(FILE);
    return;
  }
  const first = Number(range[1]);
  const last = Math.min(Number(range[2]), FILE.length - 1);
  const part = FILE.subarray(first, fault === 'short' && first > 0 ? last : last + 1);
  seen.bytes += part.length;
  const begin = fault === 'shifted' ? first + 1 : first;
  reply.writeHead(206, {
    'content-length': part.length,
    etag: fault === 'changing' ? `"${seen.requests}"` : '"one"',
    ...(fault !== 'sizeless' && { 'content-range': `bytes ${begin}-${last}/${FILE.length}` }),
  });
  reply.end(part);
}

describe('an elevation file at an address', () => {
  const seen = { bytes: 0, requests: 0 };
  let server: Server;
  let base = '';
  beforeAll(async () => {
    server = createServer((request, reply) => answer(request, reply, seen));
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  });
  afterAll(() => {
    server.closeAllConnections();
    server.close();
  });

  test('gives the same heights as from disk', async () => {
    const source = await openAddressSource(`${base}/good/dem.tif?key=1`, fetchRange);
    if (!source.ok) throw new Error(JSON.stringify(source));
    expect([source.value.name, source.value.size]).toEqual(['dem.tif', FILE.length]);
    const outcome = await openElevation(source.value);
    if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
    const block = await outcome.value.read({ column: 10, row: 20, columns: 30, rows: 40 });
    const disk = await openElevation({
      name: 'dem.tif',
      size: FILE.length,
      read: async (slices) =>
        slices.map(({ offset, length }) => new Uint8Array(FILE.subarray(offset, offset + length))),
    });
    if (disk.kind !== 'opened') throw new Error(JSON.stringify(disk));
    expect(block).toEqual(await disk.value.read({ column: 10, row: 20, columns: 30, rows: 40 }));
  });

  test.each([
    ['whole', 'address-no-ranges'],
    ['missing', 'address-status'],
    ['sizeless', 'address-size'],
    ['shifted', 'address-short'],
  ])('a server that is %s is refused by name before anything is read', async (fault, code) => {
    const source = await openAddressSource(`${base}/${fault}/dem.tif`, fetchRange);
    expect(source).toMatchObject({ ok: false, problems: [{ code, path: 'dem.tif' }] });
  });

  test('the size is asked for by itself where the reply hides it, and the first bytes are fetched once', async () => {
    const askSize = async (address: string) => {
      expect(address).toBe(`${base}/sizeless/dem.tif`);
      return FILE.length;
    };
    const before = seen.requests;
    const source = await openAddressSource(`${base}/sizeless/dem.tif`, fetchRange, { askSize, name: 'valley' });
    if (!source.ok) throw new Error(JSON.stringify(source));
    const [head, later] = await source.value.read([
      { offset: 4, length: 100 },
      { offset: 20_000, length: 9 },
    ]);
    expect([source.value.name, source.value.size, seen.requests - before]).toEqual(['valley', FILE.length, 2]);
    expect([head, later]).toEqual([
      new Uint8Array(FILE.subarray(4, 104)),
      new Uint8Array(FILE.subarray(20_000, 20_009)),
    ]);
  });

  test('a server that answers but may not be read is told from one that is not there', async () => {
    const notReadable = () => Promise.reject(new TypeError('Failed to fetch'));
    const open = (heard: boolean) =>
      openAddressSource('https://dem.invalid/dem.tif', notReadable, { isHeard: async () => heard });
    expect(await open(true)).toMatchObject({ ok: false, problems: [{ code: 'address-not-shared' }] });
    expect(await open(false)).toMatchObject({ ok: false, problems: [{ code: 'address-silent' }] });
  });

  test('a server that falls silent while the file is read is refused by name', async () => {
    let turns = 0;
    const once: AskRange = (...asked) => (turns++ === 0 ? fetchRange(...asked) : Promise.reject(new TypeError('gone')));
    const source = await openAddressSource(`${base}/good/dem.tif`, once);
    if (!source.ok) throw new Error(JSON.stringify(source));
    await expect(source.value.read([{ offset: 20_000, length: 50 }])).rejects.toMatchObject({
      problem: { code: 'address-silent', found: 'gone' },
    });
  });

  test.each([
    ['short', 'address-short'],
    ['changing', 'address-changed'],
  ])('a server that is %s while the file is read is refused', async (fault, code) => {
    const source = await openAddressSource(`${base}/${fault}/dem.tif`, fetchRange);
    if (!source.ok) throw new Error(JSON.stringify(source));
    await expect(source.value.read([{ offset: 20_000, length: 50 }])).rejects.toMatchObject({ problem: { code } });
  });

  test('nobody at the address, or no address at all, is refused', async () => {
    expect(await openAddressSource('http://127.0.0.1:1/dem.tif', fetchRange)).toMatchObject({
      ok: false,
      problems: [{ code: 'address-silent' }],
    });
    expect(await openAddressSource('file:///dem.tif', fetchRange)).toMatchObject({
      ok: false,
      problems: [{ code: 'address' }],
    });
  });
});

test('slices are read in runs that hold each of them once and are no longer than they need to be', () => {
  const slices = fc.array(fc.record({ offset: fc.nat(3_000_000), length: fc.nat(40_000) }), { maxLength: 30 });
  fc.assert(
    fc.property(slices, (list) => {
      const runs = joinSlices(list);
      const placed = runs.flatMap((run) => [...run.slices]);
      expect(placed.toSorted((p, q) => p - q)).toEqual(list.flatMap(({ length }, i) => (length > 0 ? [i] : [])));
      for (const run of runs) {
        const ends = run.slices.map((i) => (list[i]?.offset ?? 0) + (list[i]?.length ?? 0));
        expect(Math.min(...run.slices.map((i) => list[i]?.offset ?? 0))).toBe(run.offset);
        expect(Math.max(...ends)).toBe(run.offset + run.length);
      }
    }),
  );
});
