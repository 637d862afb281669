// Heights under points in the DEM's own grid, and a whole route from drawn line to profile.
import { execFile, spawnSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { importBundled } from '../../scripts/lib/bundle-source.mjs';

const run = promisify(execFile);
const SIDE = 2000;
const POINTS = 4_000_000;
const ROUNDS = 7;

export async function bench(report, options) {
  const parts = await importBundled('scripts/bench/ground-sampling-parts.ts');
  const perSecond = sampling(parts);
  report('bilinear heights from a loaded window', perSecond / 1e6, 'M points/s', `best of ${ROUNDS}; aim 10 or more`);
  await route(parts, report);
  const points = await scattered(parts, report);
  if (options.againstGdal) {
    await againstGdal(report, perSecond);
    await againstLocationInfo(report, points);
  }
}

function sampling({ sampleBilinear }) {
  const heights = Float64Array.from({ length: SIDE * SIDE }, (_, i) => 100 + Math.sin(i / 700) * 20);
  const block = { column: 0, row: 0, columns: SIDE, rows: SIDE, heights, known: new Uint8Array(SIDE * SIDE).fill(1) };
  const random = seeded(1);
  const track = {
    column: Float64Array.from({ length: POINTS }, () => random() * SIDE),
    row: Float64Array.from({ length: POINTS }, () => random() * SIDE),
  };
  const times = Array.from({ length: ROUNDS }, () => {
    const out = { height: new Float64Array(POINTS), known: new Uint8Array(POINTS) };
    const start = performance.now();
    sampleBilinear(block, { columns: SIDE, rows: SIDE }, track, { first: 0, last: POINTS - 1 }, out);
    const seconds = (performance.now() - start) / 1000;
    if (out.known.includes(0)) throw new Error('a point without a height');
    return seconds;
  });
  return POINTS / Math.min(...times);
}

/** Places anywhere on a metre grid in memory, each with height, slope and what averaging does to it. */
async function scattered({ groundAt, placedGrid, projectionOf, MemoryGrid }, report) {
  const cells = 3000;
  const count = 200_000;
  const grid = new MemoryGrid({
    name: 'bench',
    columns: cells,
    rows: cells,
    crs: { kind: 'epsg', code: 32631 },
    quantum: 0,
    affine: { a: 1, b: 0, c: 500000, d: 0, e: -1, f: 5200000 },
    heights: Float64Array.from({ length: cells * cells }, (_, i) => Math.sin(i / 999)),
    known: new Uint8Array(cells * cells).fill(1),
  });
  const placed = placedGrid(grid, (await projectionOf(grid.crs)).value);
  const random = seeded(4);
  const places = Array.from({ length: count }, () =>
    placed.positionAt({ column: 10 + random() * (cells - 20), row: 10 + random() * (cells - 20) }),
  );
  const times = [];
  for (let k = 0; k < 3; k++) {
    const start = performance.now();
    const points = await groundAt([placed], places);
    if (points.some(({ ground }) => ground === null)) throw new Error('a point without a height');
    times.push(performance.now() - start);
  }
  const perSecond = count / (Math.min(...times) / 1000);
  report('scattered points with slope and doubt, from memory', perSecond / 1e6, 'M points/s', 'aim 0.2 or more');
  return perSecond;
}

/** Points by GDAL's own tool, nearest cell only, from an uncompressed file of as many cells; its start is taken off. */
async function againstLocationInfo(report, perSecond) {
  const folder = await mkdtemp(join(tmpdir(), 'ground-sampling-'));
  try {
    const path = join(folder, 'dem.tif');
    const size = ['-outsize', '3000', '3000', '-ot', 'Float64', '-bands', '1', '-burn', '300'];
    await run('gdal_create', ['-of', 'GTiff', ...size, path]);
    const random = seeded(4);
    const seconds = (count) => {
      const input = Array.from({ length: count }, () => `${random() * 2999} ${random() * 2999}\n`).join('');
      const start = performance.now();
      const { status } = spawnSync('gdallocationinfo', ['-valonly', path], { input });
      if (status !== 0) throw new Error(`gdallocationinfo: ended with ${status}`);
      return (performance.now() - start) / 1000;
    };
    const theirs = 50_000 / (seconds(51_000) - seconds(1000));
    const note = `gdallocationinfo ${(theirs / 1e6).toFixed(3)} M points/s`;
    report('scattered points: ours over gdallocationinfo', perSecond / theirs, 'times', note);
  } catch (error) {
    report('against gdallocationinfo', 'not run', '', String(error.message).split('\n')[0]);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** A route of some 14 km over a metre grid: 29 000 samples, each with place, cells, height and distance. */
async function route({ groundAlong, placedGrid, projectionOf, MemoryGrid }, report) {
  const cells = 3000;
  const grid = new MemoryGrid({
    name: 'bench',
    columns: cells,
    rows: cells,
    crs: { kind: 'epsg', code: 32631 },
    quantum: 0,
    affine: { a: 1, b: 0, c: 500000, d: 0, e: -1, f: 5200000 },
    heights: Float64Array.from({ length: cells * cells }, (_, i) => Math.sin(i / 999)),
    known: new Uint8Array(cells * cells).fill(1),
  });
  const projection = await projectionOf(grid.crs);
  const placed = placedGrid(grid, projection.value);
  const corner = (column, row) => placed.positionAt({ column, row });
  const line = [corner(10, 10), corner(2990, 400), corner(20, 1500), corner(2980, 2990), corner(50, 2900)];
  const times = [];
  let samples = 0;
  for (let k = 0; k < ROUNDS; k++) {
    const start = performance.now();
    samples = (await groundAlong([placed], line)).at.length;
    times.push(performance.now() - start);
  }
  report(`drawn line to profile, ${samples} samples`, Math.min(...times), 'ms', `best of ${ROUNDS}`);
}

/** The same points by the nearest thing GDAL has for Python: ReadRaster with bilinear resampling, a point a call. */
async function againstGdal(report, perSecond) {
  const script = `
import time, numpy as np
from osgeo import gdal
gdal.UseExceptions()
n = ${SIDE}
ds = gdal.GetDriverByName('MEM').Create('', n, n, 1, gdal.GDT_Float64)
band = ds.GetRasterBand(1)
band.WriteArray((100 + np.sin(np.arange(n * n) / 700) * 20).reshape(n, n))
rng = np.random.default_rng(1)
spots = rng.uniform(1, n - 2, (20000, 2))
start = time.perf_counter()
for c, r in spots:
    band.ReadRaster(c - 0.5, r - 0.5, 1, 1, 1, 1, gdal.GDT_Float64, resample_alg=gdal.GRIORA_Bilinear)
print(len(spots) / (time.perf_counter() - start))
`;
  try {
    const { stdout } = await run('/usr/bin/python3', ['-c', script]);
    report('against GDAL, a point a call', perSecond / Number(stdout), 'times');
  } catch (error) {
    report('against GDAL', 'not run', '', String(error.message).split('\n')[0]);
  }
}

function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}
