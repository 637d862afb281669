// Whole elevation files from disk to heights in metres, by compression, in processor time: a busy machine does not count.
import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { importBundled } from '../../scripts/lib/bundle-source.mjs';
import { root } from '../../scripts/lib/run-program.mjs';

const run = promisify(execFile);
const ROUNDS = 5;
const SMALL = ['lzw', 'deflate', 'zstd-fast', 'zstd-slow'];
const MEMORY = 512 * 1024 * 1024;

export async function bench(report, options) {
  const parts = await importBundled('scripts/bench/block-decoding-parts.ts');
  for (const codec of SMALL) {
    const path = join(root, 'tests', 'terrain', 'fixtures', `large-${codec}.tif`);
    const { perSecond } = await readWhole(parts, path, 40);
    report(`small file of whole metres, ${codec}`, perSecond / 1e6, 'Mpixel/s', `best of ${ROUNDS}`);
  }
  if (options.againstGdal) await againstGdal(parts, report);
}

/** Opens and reads a file `times` times, each time from the start, so that nothing is kept from before. */
async function readWhole({ openElevation, openFileSource }, path, times) {
  let best = Number.POSITIVE_INFINITY;
  let sum = 0;
  let cells = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const start = process.cpuUsage();
    for (let i = 0; i < times; i++) {
      const source = await openFileSource(path);
      const opened = await openElevation(source, { memory: MEMORY });
      if (opened.kind !== 'opened') throw new Error(JSON.stringify(opened));
      const { columns, rows } = opened.value;
      const block = await opened.value.read({ column: 0, row: 0, columns, rows });
      await source.close();
      cells = columns * rows;
      sum = block.heights[cells - 1] + block.known[0];
    }
    const used = process.cpuUsage(start);
    best = Math.min(best, (used.user + used.system) / 1e6 / times);
  }
  if (!(sum > 0)) throw new Error('no heights');
  return { perSecond: cells / best, seconds: best };
}

/** 2 000 × 2 000 cells of 32-bit floating point in tiles of 256, written and read by GDAL on the same machine. */
async function againstGdal(parts, report) {
  const folder = await mkdtemp(join(tmpdir(), 'block-decoding-'));
  try {
    const { stdout } = await run('/usr/bin/python3', ['-c', GDAL_SCRIPT, folder]);
    for (const [name, seconds] of Object.entries(JSON.parse(stdout))) {
      const ours = await readWhole(parts, join(folder, `${name}.tif`), 1);
      const note = `GDAL takes ${seconds.toFixed(3)} s, ${(seconds / ours.seconds).toFixed(2)} of ours`;
      report(`4 Mpixel of floating point, ${name}`, ours.perSecond / 1e6, 'Mpixel/s', note);
    }
  } catch (error) {
    report('against GDAL', 'not run', '', String(error.message).split('\n')[0]);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

const GDAL_SCRIPT = `
import json, sys, time, numpy as np
from osgeo import gdal, osr
gdal.UseExceptions()
n = 2000
y, x = np.mgrid[0:n, 0:n].astype('f8')
z = (300 + 40 * np.sin(x / 210) * np.cos(y / 170) + 2 * np.sin(x / 7 + y / 11) + 0.02 * np.random.default_rng(1).normal(size=(n, n))).astype('f4')
srs = osr.SpatialReference(); srs.ImportFromEPSG(32630)
out = {}
for codec, options in {'none': [], 'lzw': ['COMPRESS=LZW'], 'lzw-p3': ['COMPRESS=LZW', 'PREDICTOR=3'], 'deflate': ['COMPRESS=DEFLATE'],
                       'deflate-p3': ['COMPRESS=DEFLATE', 'PREDICTOR=3'], 'zstd-p3': ['COMPRESS=ZSTD', 'PREDICTOR=3'],
                       'packbits': ['COMPRESS=PACKBITS'], 'lerc': ['COMPRESS=LERC', 'MAX_Z_ERROR=0.01']}.items():
    path = sys.argv[1] + '/' + codec + '.tif'
    ds = gdal.GetDriverByName('GTiff').Create(path, n, n, 1, gdal.GDT_Float32, options + ['TILED=YES'])
    ds.SetProjection(srs.ExportToWkt()); ds.SetGeoTransform((500000, 1, 0, 4200000, 0, -1))
    ds.GetRasterBand(1).WriteArray(z); ds = None
    best = 1e9
    for _ in range(${ROUNDS}):
        start = time.process_time()
        ds = gdal.Open(path); ds.ReadAsArray(); ds = None
        best = min(best, time.process_time() - start)
    out[codec] = best
print(json.dumps(out))
`;
