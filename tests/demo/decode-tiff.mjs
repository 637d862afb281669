// Decodes a GeoTIFF with the public library geotiff.js, not with the planner's own reader:
// node decode-tiff.mjs FILE writes one line of JSON, then the samples. The library does not start inside a test thread.
import { readFileSync } from 'node:fs';
import { fromArrayBuffer } from 'geotiff';

const image = await (await fromArrayBuffer(new Uint8Array(readFileSync(process.argv[2])).buffer)).getImage(0);
const samples = await image.readRasters({ interleave: true });
const about = {
  columns: image.getWidth(),
  rows: image.getHeight(),
  bands: image.getSamplesPerPixel(),
  keys: image.getGeoKeys(),
  box: image.getBoundingBox(),
  nodata: image.getGDALNoData(),
};
process.stdout.write(`${JSON.stringify(about)}\n`);
process.stdout.write(Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength));
