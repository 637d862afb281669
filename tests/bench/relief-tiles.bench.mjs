// Map tiles of the demo valley from a loaded window, and hillshade and contours of a plain array beside GDAL's.
import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { importBundled } from '../../scripts/lib/bundle-source.mjs';
import { root } from '../../scripts/lib/run-program.mjs';

const run = promisify(execFile);
const ROUNDS = 6;
const AIM = 'aim 30 or less';
const SIDE = 2000;
const STEP = 10;

export async function bench(report, options) {
  const parts = await importBundled('scripts/bench/relief-parts.ts');
  const file = await parts.openFileSource(join(root, 'data', 'demo', 'dem.tif'));
  const source = await demoSource(parts, file);
  const character = await parts.terrainCharacter(source);
  const relief = (tile) => parts.reliefTile(source, character, { tile, colours: 'light', size: 256 });
  const slope = (tile) => parts.slopeTile(source, { tile, colours: 'light', size: 256 });
  const contour = (tile) => parts.contourTile(source, character, { tile, unit: 'metre', finest: 0.1 });
  for (const zoom of [15, 16, 17, 18]) {
    report(`relief tile, 256 pixels, zoom ${zoom}`, await p95(relief, zoom), 'ms, p95', AIM);
    report(`slope tile, 256 pixels, zoom ${zoom}`, await p95(slope, zoom), 'ms, p95', AIM);
    report(`contour tile, zoom ${zoom}`, await p95(contour, zoom), 'ms, p95', AIM);
  }
  await file.close();
  const own = plainArray(parts);
  report(`hillshade of ${SIDE} × ${SIDE} cells`, own.hillshade, 'ms', `best of ${ROUNDS}`);
  report(`contours of ${SIDE} × ${SIDE} cells, every ${STEP} m`, own.contours, 'ms', `best of ${ROUNDS}`);
  if (options.againstGdal) await againstGdal(report, own);
}

async function demoSource({ openElevation, projectionOf, placedGrid, ReliefSource }, file) {
  const opened = await openElevation(file);
  if (opened.kind !== 'opened') throw new Error(`demo DEM: ${JSON.stringify(opened)}`);
  const projection = await projectionOf(opened.value.crs);
  return new ReliefSource([placedGrid(opened.value, projection.value)]);
}

/** 95th percentile over the tiles that cover the demo valley, after a round that loads their windows. */
async function p95(draw, zoom) {
  const scale = 2 ** zoom;
  const column = Math.floor((-40.001 / 360 + 0.5) * scale);
  const row = Math.floor((0.5 - Math.asinh(Math.tan((38.005 * Math.PI) / 180)) / (2 * Math.PI)) * scale);
  const across = Math.max(1, Math.min(6, Math.round((0.0095 / 360) * scale)));
  const times = [];
  for (let round = 0; round <= ROUNDS; round += 1) {
    for (let at = 0; at < across * across; at += 1) {
      const start = performance.now();
      await draw({ z: zoom, x: column + (at % across), y: row + Math.floor(at / across) });
      if (round > 0) times.push(performance.now() - start);
    }
  }
  times.sort((one, other) => one - other);
  return times[Math.ceil(0.95 * times.length) - 1];
}

const height = (column, row) => 300 + 80 * Math.sin(column / 90) * Math.cos(row / 130) + 5 * Math.sin(column / 11);

function plainArray({ hornGradients, lightVector, shade, contourPieces, joinPieces, crossing }) {
  const heights = Float32Array.from({ length: SIDE * SIDE }, (_, at) => height(at % SIDE, Math.floor(at / SIDE)));
  const known = new Uint8Array(SIDE * SIDE).fill(1);
  const light = lightVector({ azimuth: 315, altitude: 45 });
  const out = new Uint8Array(SIDE * SIDE);
  const hillshade = best(() => {
    const { across, down } = hornGradients({ column: 0, row: 0, columns: SIDE, rows: SIDE, heights, known });
    for (let at = 0; at < out.length; at += 1) out[at] = 1 + 254 * shade(across[at], -down[at], light);
    return out[12_345];
  });
  const field = { side: SIDE, heights, known };
  const contours = best(() => {
    let points = 0;
    for (const { level, edges } of contourPieces(field, STEP).values()) {
      for (const line of joinPieces(edges)) points += line.map((edge) => crossing(field, edge, level)).length;
    }
    return points;
  });
  return { hillshade, contours };
}

/** Least time of several rounds; a round that gives nothing has measured nothing. */
function best(job) {
  const times = Array.from({ length: ROUNDS }, () => {
    const start = performance.now();
    if (!(job() > 0)) throw new Error('a round without a result');
    return performance.now() - start;
  });
  return Math.min(...times);
}

/** The same array through GDAL's own routines, from memory to memory. */
async function againstGdal(report, own) {
  const script = `
import time, numpy as np
from osgeo import gdal, ogr
gdal.UseExceptions()
y, x = np.mgrid[0:${SIDE}, 0:${SIDE}].astype('float32')
z = (300 + 80 * np.sin(x / 90) * np.cos(y / 130) + 5 * np.sin(x / 11)).astype('float32')
ds = gdal.GetDriverByName('MEM').Create('', ${SIDE}, ${SIDE}, 1, gdal.GDT_Float32)
ds.SetGeoTransform((0, 1, 0, 0, 0, -1)); ds.GetRasterBand(1).WriteArray(z)
def best(job):
    times = []
    for _ in range(${ROUNDS}):
        start = time.perf_counter(); job(); times.append(time.perf_counter() - start)
    return 1000 * min(times)
def contours():
    source = ogr.GetDriverByName('Memory').CreateDataSource('')
    layer = source.CreateLayer('', None, ogr.wkbLineString)
    layer.CreateField(ogr.FieldDefn('z', ogr.OFTReal))
    gdal.ContourGenerate(ds.GetRasterBand(1), ${STEP}, 0, [], 0, 0, layer, -1, 0)
print(best(lambda: gdal.DEMProcessing('', ds, 'hillshade', format='MEM')), best(contours))
`;
  try {
    const { stdout } = await run('/usr/bin/python3', ['-c', script]);
    const [hillshade, contours] = stdout.trim().split(' ').map(Number);
    report('hillshade: GDAL time over ours', hillshade / own.hillshade, 'times', `GDAL ${hillshade.toFixed(0)} ms`);
    report('contours: GDAL time over ours', contours / own.contours, 'times', `GDAL ${contours.toFixed(0)} ms`);
  } catch (error) {
    report('against GDAL', 'not run', '', String(error.message).split('\n')[0]);
  }
}
