import { readFileSync } from 'node:fs';
import { fromArrayBuffer } from 'geotiff';
import { expect, test } from 'vitest';
import { groundOfPlan } from '../../src/evaluation/evaluate/ground-of-plan.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { takeHeights } from '../../src/terrain/clip/field-heights.ts';
import { openTerrain } from '../../src/terrain/ground/open-terrain.ts';
import { sourceOf } from './fixture-files.ts';

const demo = readPlan(readFileSync('data/demo/plan.geojson', 'utf8'));
if (!demo.ok) throw new Error('found a demo plan that cannot be read');
const plan = demo.value;
const lines = [...plan.points.map(({ position }) => [position]), ...plan.routes.map(({ vertices }) => vertices)];

async function opened(name: string, bytes: Uint8Array, recorded = {}) {
  const outcome = await openTerrain([sourceOf(name, bytes)], { answers: {}, accuracy: null, recorded });
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  return outcome;
}

async function taken(mostBytes: number) {
  const whole = await opened('dem.tif', new Uint8Array(readFileSync('data/demo/dem.tif')));
  const outcome = await takeHeights(whole.grids, { lines, mostBytes });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome));
  const [file] = outcome.value.files;
  if (file === undefined) throw new Error('found no file taken along, expected one');
  return { whole, file, margin: outcome.value.margin };
}

test('the ground taken along is the same to the last digit as that of the whole file', async () => {
  const { whole, file, margin } = await taken(500_000);
  expect(file.bytes.length).toBeLessThanOrEqual(500_000);
  expect(margin).not.toBeNull();
  expect(file.cells).toBeLessThan(file.of / 2);
  const small = await opened('heights-1.tif', file.bytes, { 'heights-1.tif': file.record });
  expect(small.terrain.about).toEqual(whole.terrain.about);
  expect(await groundOfPlan(plan, small.terrain)).toEqual(await groundOfPlan(plan, whole.terrain));
});

test('a wider margin is taken where there is room for it', async () => {
  const { file, margin } = await taken(10_000_000);
  expect(margin).toBeNull();
  expect(file.cells).toBe(file.of);
  expect((await taken(300_000)).file.cells).toBeLessThan((await taken(600_000)).file.cells);
});

// `geotiff` is another reader of GeoTIFF than the program's own.
test('another reader finds the same heights, and none where tiles are left out', async () => {
  const { whole, file } = await taken(500_000);
  const image = await (await fromArrayBuffer(file.bytes.buffer)).getImage();
  const [grid] = whole.grids;
  if (grid === undefined) throw new Error('found no grid');
  expect([image.getWidth(), image.getHeight()]).toEqual([grid.columns, grid.rows]);
  expect(image.getGeoKeys()).toMatchObject({ ProjectedCSTypeGeoKey: 32624, VerticalUnitsGeoKey: 9001 });
  const small = await opened('heights-1.tif', file.bytes, { 'heights-1.tif': file.record });
  const windows = [0.3, 0.5, 0.7].map((share) => ({
    column: Math.floor(grid.columns * share),
    row: Math.floor(grid.rows * share),
    columns: 8,
    rows: 8,
  }));
  let compared = 0;
  for (const window of windows) {
    const block = await small.grids[0]?.read(window);
    if (block === undefined || block.known.some((known) => known === 0)) continue;
    compared += 1;
    const { column, row, columns, rows } = window;
    const [values] = await image.readRasters({ window: [column, row, column + columns, row + rows] });
    expect(Array.from(values as Float32Array)).toEqual(Array.from(block.heights, (height) => Math.fround(height)));
  }
  expect(compared).toBeGreaterThan(0);
});

test('a plan beyond the room for it is refused', async () => {
  const whole = await opened('dem.tif', new Uint8Array(readFileSync('data/demo/dem.tif')));
  const outcome = await takeHeights(whole.grids, { lines, mostBytes: 1000 });
  expect(outcome).toMatchObject({ ok: false, problems: [{ code: 'take-too-large' }] });
});
