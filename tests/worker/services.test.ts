import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { USUAL_ROUTE_SETTINGS } from '../../src/siting/lines/route-settings.ts';
import type { FileAnswers, NamedBlob, Progress, Question } from '../../src/worker/messages.ts';
import { pictureService } from '../../src/worker/picture-service.ts';
import type { Job } from '../../src/worker/serve.ts';
import { terrainService } from '../../src/worker/terrain-service.ts';

const JOB: Job = { signal: new AbortController().signal, progress: () => undefined };

function blobOf(path: string, name = path.split('/').pop() ?? ''): NamedBlob {
  return { name, blob: new Blob([readFileSync(new URL(`../../${path}`, import.meta.url))]) };
}

/** Keeps the pixels where a browser would make a picture of them. */
function pixelKeeper() {
  const kept: Uint8ClampedArray[] = [];
  const toBitmap = (pixels: Uint8ClampedArray<ArrayBuffer>, size: number) => {
    kept.push(pixels);
    return Promise.resolve({ width: size, height: size, close: () => undefined });
  };
  return { kept, toBitmap };
}

const noJpeg = () => Promise.reject(new Error('JPEG decoder: none in this test'));
const noPicture = () => Promise.reject(new Error('picture decoder: none in this test'));

/** From the invented pump on its bench to the tank on the shoulder above it. */
const toTheShoulder: Question<'propose-route'> = {
  from: { position: { lon: -39.99642252, lat: 38.00110504 }, height: 0.3 },
  to: { position: { lon: -39.99605816, lat: 38.00195531 }, height: 1.6 },
  role: 'delivery',
  settings: USUAL_ROUTE_SETTINGS,
};

describe('a terrain behind the worker', () => {
  const open = (files: readonly NamedBlob[], accuracy: string | null = null, answers: FileAnswers = {}) => {
    const { kept, toBitmap } = pixelKeeper();
    const service = terrainService(toBitmap);
    return { kept, service, result: service['open-terrain']({ files, answers, accuracy }, JOB) };
  };

  test('opens the demo valley and gives the heights that GDAL reads there', async () => {
    const { service, result } = open([blobOf('data/demo/dem.tif')], 'lidar-1m-open');
    expect(await result).toMatchObject({
      kind: 'opened',
      about: { size: { columns: 1000, rows: 900 }, accuracy: { id: 'lidar-1m-open' } },
    });
    // gdal.Warp of data/demo/dem.tif to tile 18/101947/101115 of EPSG:3857, 256 × 256, bilinear, error 0: pixel 128, 128.
    const lon = ((101947 + 128.5 / 256) / 2 ** 18) * 360 - 180;
    const lat = (Math.atan(Math.sinh(Math.PI * (1 - (2 * (101115 + 128.5 / 256)) / 2 ** 18))) * 180) / Math.PI;
    const [point] = await service['ground-at']({ positions: [{ lon, lat }] }, JOB);
    expect(point?.ground).toBeCloseTo(163.007, 2);
  });

  test('draws relief where the DEM is and nothing beside it', async () => {
    const { kept, service, result } = open([blobOf('data/demo/dem.tif')]);
    await result;
    const tile = { z: 16, x: 25486, y: 25278 };
    await service['relief-tile']({ tile, colours: 'light', size: 64 }, JOB);
    await service['relief-tile']({ tile: { ...tile, x: tile.x + 30 }, colours: 'light', size: 64 }, JOB);
    expect(kept.map((pixels) => pixels.some((value) => value !== 0))).toEqual([true, false]);
  });

  test('draws slope colours where the ground is not level, and nothing beside the DEM', async () => {
    const { kept, service, result } = open([blobOf('data/demo/dem.tif')]);
    await result;
    const tile = { z: 16, x: 25486, y: 25278 };
    await service['slope-tile']({ tile, colours: 'dark', size: 64 }, JOB);
    await service['slope-tile']({ tile: { ...tile, x: tile.x + 30 }, colours: 'dark', size: 64 }, JOB);
    expect(kept.map((pixels) => pixels.some((value) => value !== 0))).toEqual([true, false]);
  });

  test('draws contours whose step suits the units shown', async () => {
    const { service, result } = open([blobOf('data/demo/dem.tif')]);
    await result;
    const tile = { z: 15, x: 12743, y: 12639 };
    const metric = await service['contour-tile']({ tile, units: 'metric' }, JOB);
    const us = await service['contour-tile']({ tile, units: 'us' }, JOB);
    expect([1, 2, 5, 10]).toContain(metric.interval);
    expect([5, 10, 20, 50]).toContain(us.interval);
    expect(metric.data.byteLength).toBeGreaterThan(1000);
  });

  test('keeps the terrain at hand when the next one is refused', async () => {
    const { service, result } = open([blobOf('data/demo/dem.tif')]);
    await result;
    const broken = { name: 'torn.tif', blob: new Blob([new Uint8Array([0x49, 0x49, 42, 0, 8, 0, 0, 0])]) };
    const refused = await service['open-terrain']({ files: [broken], answers: {}, accuracy: null }, JOB);
    expect(refused.kind).toBe('refused');
    const [point] = await service['ground-at']({ positions: [{ lon: -39.9966, lat: 38.0015 }] }, JOB);
    expect(point?.ground).not.toBeNull();
  });

  test('refuses an accuracy class that nobody knows', async () => {
    const { result } = open([blobOf('data/demo/dem.tif')], 'hearsay');
    expect(await result).toMatchObject({ kind: 'refused', problems: [{ code: 'accuracy-unknown', found: 'hearsay' }] });
  });

  test('proposes a delivery line between its two ends and tells how far the search has come', async () => {
    const { service, result } = open([blobOf('data/demo/dem.tif')]);
    await result;
    const told: Progress[] = [];
    const answer = await service['propose-route'](toTheShoulder, { ...JOB, progress: (one) => told.push(one) });
    expect(answer.kind).toBe('route');
    if (answer.kind !== 'route') return;
    expect(answer.vertices[0]).toEqual(toTheShoulder.from.position);
    expect(answer.vertices.at(-1)).toEqual(toTheShoulder.to.position);
    expect(told.map(({ done }) => done)).toEqual(told.map(({ done }) => done).toSorted((a, b) => a - b));
    expect(told.at(-1)?.done).toBeGreaterThan(0);
  });

  test('stops looking for a line when it is told to', async () => {
    const { service, result } = open([blobOf('data/demo/dem.tif')]);
    await result;
    const stop = new AbortController();
    const progress = () => stop.abort();
    const behindTheKnoll = { position: { lon: -39.99333296, lat: 38.00257319 }, height: 1.6 };
    const looking = service['propose-route'](
      { ...toTheShoulder, to: behindTheKnoll },
      { signal: stop.signal, progress },
    );
    await expect(looking).rejects.toThrow();
  });

  test('cannot be asked before one is open', async () => {
    const service = terrainService(pixelKeeper().toBitmap);
    await expect(async () => service['ground-at']({ positions: [] }, JOB)).rejects.toThrow('found none');
  });
});

describe('a picture behind the worker', () => {
  test('opens, tells where it lies and draws its tiles', async () => {
    const { kept, toBitmap } = pixelKeeper();
    const service = pictureService(toBitmap, {
      jpeg: noJpeg,
      whole: noPicture,
      asJpeg: async () => new ArrayBuffer(0),
    });
    const result = await service['open-picture']({ files: [blobOf('data/demo/picture.tif')], answers: {} }, JOB);
    expect(result).toMatchObject({ kind: 'opened', about: { file: 'picture.tif', size: { columns: 2000 } } });
    await service['picture-tile']({ tile: { z: 16, x: 25486, y: 25278 }, size: 32 }, JOB);
    expect(kept[0]?.some((value) => value !== 0)).toBe(true);
  });

  test('refuses what is no picture and says which file', async () => {
    const service = pictureService(pixelKeeper().toBitmap, {
      jpeg: noJpeg,
      whole: noPicture,
      asJpeg: async () => new ArrayBuffer(0),
    });
    const text = { name: 'notes.tif', blob: new Blob(['not a picture at all']) };
    expect(await service['open-picture']({ files: [text], answers: {} }, JOB)).toMatchObject({
      kind: 'refused',
      problems: [{ path: expect.stringContaining('notes.tif') }],
    });
  });
});
