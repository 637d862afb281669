import { readFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Progress } from '../../src/worker/messages.ts';
import { openSources, openTerrainFiles } from '../../src/worker/open-terrain-files.ts';

// The browser's own reader of ranges, run on the fetch of Node, against a server on this machine (RFC 9110, section 14).

const FILE = readFileSync(new URL('../../data/demo/dem.tif', import.meta.url));

/** Answers well, or with the fault that the first part of the path names. */
function answer(request: IncomingMessage, reply: ServerResponse): void {
  const fault = request.url?.split('/')[1] ?? '';
  const range = /^bytes=(\d+)-(\d+)$/.exec(request.headers.range ?? '');
  if (request.method === 'HEAD' || range === null || fault === 'whole') {
    reply.writeHead(200, fault === 'sizeless' ? {} : { 'content-length': FILE.length });
    reply.end(request.method === 'HEAD' ? undefined : FILE);
    return;
  }
  const first = Number(range[1]);
  const last = Math.min(Number(range[2]), FILE.length - 1);
  const hidden = fault === 'hidden' || fault === 'sizeless';
  reply.writeHead(206, hidden ? {} : { 'content-range': `bytes ${first}-${last}/${FILE.length}` });
  reply.end(FILE.subarray(first, fault === 'endless' ? FILE.length : last + 1));
}

describe('elevation at an address, in the worker', () => {
  let server: Server;
  let base = '';
  beforeAll(async () => {
    server = createServer(answer);
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  });
  afterAll(() => {
    server.closeAllConnections();
    server.close();
  });
  const at = (fault: string) => [{ name: 'dem.tif', address: `${base}/${fault}/dem.tif` }];
  const open = (fault: string) =>
    openSources(at(fault), { signal: new AbortController().signal, onBytes: () => undefined });

  test('opens like one from disk and tells how many bytes have come', async () => {
    const told: Progress[] = [];
    const job = { signal: new AbortController().signal, progress: (one: Progress) => told.push(one) };
    const fromAddress = await openTerrainFiles({ files: at('good'), answers: {}, accuracy: null }, job);
    const fromDisk = await openTerrainFiles(
      { files: [{ name: 'dem.tif', blob: new Blob([FILE]) }], answers: {}, accuracy: null },
      job,
    );
    if (fromAddress.kind !== 'opened' || fromDisk.kind !== 'opened') throw new Error(JSON.stringify(fromAddress));
    expect(fromAddress.files.terrain.about).toEqual(fromDisk.files.terrain.about);
    const place = [{ lon: -39.9966, lat: 38.0015 }];
    expect(await fromAddress.files.terrain.groundAt(place)).toEqual(await fromDisk.files.terrain.groundAt(place));
    expect(told[0]?.bytes).toBe(16 * 1024);
    expect(told.every(({ done, of }) => done === 0 && of === 1)).toBe(true);
  });

  test('takes the size from the answer to HEAD where the reply to a range hides it', async () => {
    const opened = await open('hidden');
    expect(opened.ok && opened.value[0]?.size).toBe(FILE.length);
  });

  test.each([
    ['whole', 'address-no-ranges'],
    ['sizeless', 'address-size'],
    ['endless', 'address-short'],
  ])('a server that is %s is refused', async (fault, code) => {
    expect(await open(fault)).toMatchObject({ ok: false, problems: [{ code, path: 'dem.tif' }] });
  });

  test('one server that refuses keeps the other files from being opened as if they were all', async () => {
    const files = [...at('good'), { name: 'other.tif', address: `${base}/whole/other.tif` }];
    const opened = await openSources(files, { signal: new AbortController().signal, onBytes: () => undefined });
    expect(opened).toMatchObject({ ok: false, problems: [{ code: 'address-no-ranges', path: 'other.tif' }] });
  });

  test('is given up when the user cancels', async () => {
    const stop = new AbortController();
    stop.abort();
    await expect(openSources(at('good'), { signal: stop.signal, onBytes: () => undefined })).rejects.toThrow();
  });
});
