import { deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import type { ByteSource } from '../../src/terrain/bytes/byte-source.ts';
import { openTerrain } from '../../src/terrain/ground/open-terrain.ts';
import { openGeoTiff } from '../../src/terrain/open/open-geotiff.ts';
import { fixtureSource } from './fixture-files.ts';
import { seeded } from './hostile-corpus.ts';
import { placed, positionOf } from './placed.ts';
import { UTM_KEYS } from './tiff-maker.ts';

// BigTIFF as libtiff's design page lays it out: 8-byte offsets, 20-byte entries.

const SIDE = 60_000;
const TILE = 256;
const TILES = Math.ceil(SIDE / TILE) ** 2;
const FAR = 4.5 * 2 ** 30;

const random = seeded(4_300);

/** A slope with a roughness that packs badly, to four fifths of its bytes. */
const TILE_HEIGHTS = Float32Array.from(
  { length: TILE * TILE },
  (_, i) => 200 + (i % TILE) / 8 + Math.floor(i / TILE) / 16 + 0.1 * random(),
);

const heightAt = (column: number, row: number): number =>
  TILE_HEIGHTS[(row % TILE) * TILE + (column % TILE)] ?? Number.NaN;

/** A file of more than 4 GiB that exists only where it is written to; all its tiles are the same one. */
function hugeFile(): ByteSource & { bytesRead: number } {
  const packed = new Uint8Array(deflateSync(new Uint8Array(TILE_HEIGHTS.buffer)));
  const parts: { at: number; bytes: Uint8Array }[] = [];
  const put = (at: number, length: number, write: (view: DataView) => void) => {
    const bytes = new Uint8Array(length);
    write(new DataView(bytes.buffer));
    parts.push({ at, bytes });
  };
  const directory = FAR + 1024;
  const offsetsAt = FAR + 16_384;
  const countsAt = offsetsAt + 8 * TILES;
  const tileAt = countsAt + 4 * TILES;
  put(0, 16, (view) => {
    view.setUint32(0, 0x002b4949, true);
    view.setUint16(4, 8, true);
    view.setBigUint64(8, BigInt(directory), true);
  });
  const doubles = [2, 2, 0, 0, 0, 0, 500000, 4200000, 0];
  const entries: [tag: number, type: number, count: number, value: number][] = [
    [256, 4, 1, SIDE],
    [257, 4, 1, SIDE],
    [258, 3, 1, 32],
    [259, 3, 1, 8],
    [277, 3, 1, 1],
    [322, 3, 1, TILE],
    [323, 3, 1, TILE],
    [324, 16, TILES, offsetsAt],
    [325, 4, TILES, countsAt],
    [339, 3, 1, 3],
    [33550, 12, 3, FAR + 4096],
    [33922, 12, 6, FAR + 4096 + 24],
    [34735, 3, UTM_KEYS.length, FAR + 8192],
  ];
  put(directory, 8 + 20 * entries.length + 8, (view) => {
    view.setBigUint64(0, BigInt(entries.length), true);
    for (const [i, [tag, type, count, value]] of entries.entries()) {
      view.setUint16(8 + 20 * i, tag, true);
      view.setUint16(10 + 20 * i, type, true);
      view.setBigUint64(12 + 20 * i, BigInt(count), true);
      view.setBigUint64(20 + 20 * i, BigInt(value), true);
    }
  });
  put(FAR + 4096, 72, (view) => {
    for (const [i, value] of doubles.entries()) view.setFloat64(8 * i, value, true);
  });
  put(FAR + 8192, 2 * UTM_KEYS.length, (view) => {
    for (const [i, value] of UTM_KEYS.entries()) view.setUint16(2 * i, value, true);
  });
  put(offsetsAt, 8 * TILES, (view) => {
    for (let i = 0; i < TILES; i++) view.setBigUint64(8 * i, BigInt(tileAt), true);
  });
  put(countsAt, 4 * TILES, (view) => {
    for (let i = 0; i < TILES; i++) view.setUint32(4 * i, packed.length, true);
  });
  parts.push({ at: tileAt, bytes: packed });
  const source = {
    name: 'huge.tif',
    size: 6 * 2 ** 30,
    bytesRead: 0,
    read: async (slices: readonly { offset: number; length: number }[]) =>
      slices.map(({ offset, length }) => {
        source.bytesRead += length;
        const bytes = new Uint8Array(length);
        for (const part of parts) {
          const from = Math.max(offset, part.at);
          const to = Math.min(offset + length, part.at + part.bytes.length);
          if (to > from) bytes.set(part.bytes.subarray(from - part.at, to - part.at), from - offset);
        }
        return bytes;
      }),
  };
  return source;
}

describe('a file of more than 4 GiB', () => {
  test('is opened and a window of 500 × 500 cells read with less than 8 MB of it', async () => {
    const source = hugeFile();
    const outcome = await openGeoTiff(source);
    if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
    const grid = outcome.value;
    expect([grid.columns, grid.rows]).toEqual([SIDE, SIDE]);
    const block = await grid.read({ column: 31_000, row: 42_000, columns: 500, rows: 500 });
    for (const [column, row] of [
      [0, 0],
      [499, 0],
      [250, 333],
      [499, 499],
    ] as const) {
      expect(block.heights[row * 500 + column]).toBe(heightAt(31_000 + column, 42_000 + row));
    }
    expect(source.bytesRead).toBeLessThan(8 * 1024 * 1024);
  });

  test('is opened and the first profile, of 3 km, drawn with less than 8 MB of it', async () => {
    const source = hugeFile();
    const opened = await openTerrain([source], { answers: {}, accuracy: null });
    if (opened.kind !== 'opened') throw new Error(JSON.stringify(opened));
    const [file] = opened.sources;
    if (!file) throw new Error('expected one file');
    const frame = await placed(file.grid);
    // From the middle of a cell to that of another, 1200 columns and 900 rows of 2 m on.
    const ends = [
      { column: 31_000, row: 42_000 },
      { column: 32_200, row: 42_900 },
    ];
    const line = await opened.terrain.groundAlong(ends.map((p) => positionOf(frame, p.column + 0.5, p.row + 0.5)));
    expect(line.horizontal).toBeGreaterThan(2990);
    expect(line.known.every((known) => known === 1)).toBe(true);
    for (const [i, { column, row }] of ends.entries()) {
      expect(line.ground[line.vertices[i] ?? -1]).toBeCloseTo(heightAt(column, row), 3);
    }
    expect(source.bytesRead).toBeLessThan(8 * 1024 * 1024);
  });

  test('a window beyond the budget of memory is refused by name', async () => {
    const outcome = await openGeoTiff(hugeFile(), { memory: 16 * 1024 * 1024 });
    if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
    await expect(outcome.value.read({ column: 0, row: 0, columns: SIDE, rows: SIDE })).rejects.toMatchObject({
      problem: { code: 'window-too-large', path: 'huge.tif' },
    });
  });
});

test('a window reads the blocks under it and no others, and a second look reads none', async () => {
  const source = fixtureSource('little-float32-strips');
  const outcome = await openGeoTiff(source);
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  const before = source.bytesRead;
  await outcome.value.read({ column: 3, row: 9, columns: 4, rows: 2 });
  // Rows 9 and 10 lie in the third strip of four rows of 21 cells of four bytes.
  expect(source.bytesRead - before).toBe(4 * 21 * 4);
  await outcome.value.read({ column: 3, row: 9, columns: 4, rows: 2 });
  expect(source.bytesRead - before).toBe(4 * 21 * 4);
});

test('an aborted read rejects and a later one goes on', async () => {
  const outcome = await openGeoTiff(fixtureSource('little-float32-tiles'));
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  const window = { column: 0, row: 0, columns: 21, rows: 19 };
  await expect(outcome.value.read(window, AbortSignal.abort())).rejects.toThrow();
  expect((await outcome.value.read(window)).known[0]).toBe(1);
});
