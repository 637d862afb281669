import { readdirSync, readFileSync } from 'node:fs';
import { fromArrayBuffer } from 'geotiff';
import { expect, test } from 'vitest';
import { groundOfPlan } from '../../src/evaluation/evaluate/ground-of-plan.ts';
import { readPlan } from '../../src/plan/file/read-plan.ts';
import { takeHeights } from '../../src/terrain/clip/field-heights.ts';
import { openTerrain } from '../../src/terrain/ground/open-terrain.ts';
import { sourceOf } from './fixture-files.ts';
import { HEIGHTS, makeDem, UTM_KEYS } from './tiff-maker.ts';

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
  let blocks = 0;
  for (const window of windows) {
    const block = await small.grids[0]?.read(window);
    if (block === undefined || block.known.some((known) => known === 0)) continue;
    blocks += 1;
    const { column, row, columns, rows } = window;
    const [values] = await image.readRasters({ window: [column, row, column + columns, row + rows] });
    expect(Array.from(values as Float32Array)).toEqual(Array.from(block.heights, (height) => Math.fround(height)));
  }
  expect(blocks).toBeGreaterThan(0);
});

test('a plan beyond the room for it is refused', async () => {
  const whole = await opened('dem.tif', new Uint8Array(readFileSync('data/demo/dem.tif')));
  const outcome = await takeHeights(whole.grids, { lines, mostBytes: 1000 });
  expect(outcome).toMatchObject({ ok: false, problems: [{ code: 'take-too-large' }] });
});

let compared = 0;

// Files as GDAL writes them: other kinds of numbers, units, tilings, and coordinates (fixtures/README.md).
test.each(
  readdirSync('tests/terrain/fixtures')
    .filter((name) => name.endsWith('.tif'))
    .map((name) => [name] as const),
)('ground taken along from %s is that of the file, and so is what is said of it', async (name) => {
  const source = sourceOf(name, new Uint8Array(readFileSync(`tests/terrain/fixtures/${name}`)));
  const whole = await openTerrain([source], { answers: {}, accuracy: null });
  if (whole.kind !== 'opened') return;
  const [grid] = whole.grids;
  const [corner, , opposite] = whole.terrain.about.outline;
  if (!grid || !corner || !opposite) throw new Error(`${name}: found no grid with corners`);
  const between = (share: number) => ({
    lon: corner.lon + share * (opposite.lon - corner.lon),
    lat: corner.lat + share * (opposite.lat - corner.lat),
  });
  const line = [between(0.3), between(0.5), between(0.65)];
  const outcome = await takeHeights(whole.grids, { lines: [line], mostBytes: 10_000_000 });
  if (!outcome.ok) {
    expect(outcome.problems[0]?.code).toBe('clip-crs');
    return;
  }
  compared += 1;
  const [file] = outcome.value.files;
  if (!file) throw new Error(`${name}: found nothing taken along`);
  const small = await opened('heights-1.tif', file.bytes, { 'heights-1.tif': file.record });
  expect(small.terrain.about).toEqual(whole.terrain.about);
  expect(await small.terrain.groundAlong(line)).toEqual(await whole.terrain.groundAlong(line));
  expect(await small.terrain.groundAt(line)).toEqual(await whole.terrain.groundAt(line));
});

test('most of those files open without a question, and were compared', () => {
  expect(compared).toBeGreaterThan(50);
});

test('of several files each is taken along, also one that the plan does not touch', async () => {
  const metres = makeDem(
    [
      { tag: 34735, type: 3, values: [...UTM_KEYS.slice(0, 3), 4, ...UTM_KEYS.slice(4), 4096, 0, 1, 5703] },
      { tag: 33922, type: 12, values: [0, 0, 0, 500_000, 4_200_000, 0] },
    ],
    HEIGHTS,
  );
  const beside = makeDem(
    [
      { tag: 34735, type: 3, values: [...UTM_KEYS.slice(0, 3), 4, ...UTM_KEYS.slice(4), 4096, 0, 1, 6360] },
      { tag: 33922, type: 12, values: [0, 0, 0, 500_024, 4_200_000, 0] },
    ],
    HEIGHTS.map((height) => (height * 3937) / 1200),
  );
  const sources = [sourceOf('west.tif', metres), sourceOf('east.tif', beside)];
  const whole = await openTerrain(sources, { answers: {}, accuracy: null });
  if (whole.kind !== 'opened') throw new Error(JSON.stringify(whole));
  const [corner, , opposite] = whole.terrain.about.outline;
  if (!corner || !opposite) throw new Error('found no corners');
  const line = [0.1, 0.2].map((share) => ({
    lon: corner.lon + share * (opposite.lon - corner.lon),
    lat: corner.lat + 0.4 * (opposite.lat - corner.lat),
  }));
  const outcome = await takeHeights(whole.grids, { lines: [line], mostBytes: 10_000_000 });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome));
  const { files } = outcome.value;
  expect(files.map(({ record }) => record.name)).toEqual(['west.tif', 'east.tif']);
  const small = await openTerrain(
    files.map(({ bytes }, k) => sourceOf(`${k}.tif`, bytes)),
    { answers: {}, accuracy: null, recorded: Object.fromEntries(files.map(({ record }, k) => [`${k}.tif`, record])) },
  );
  if (small.kind !== 'opened') throw new Error(JSON.stringify(small));
  expect(small.terrain.about).toEqual(whole.terrain.about);
  expect(await small.terrain.groundAlong(line)).toEqual(await whole.terrain.groundAlong(line));
});
