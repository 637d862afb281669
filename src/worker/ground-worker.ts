import { exifSpans } from '../relief/picture/jpeg-exif.ts';
import type { DecodeJpeg } from '../relief/picture/jpeg-size.ts';
import type { Pixels } from '../relief/picture/pixels.ts';
import type { DecodedPicture } from '../relief/picture/plain-picture.ts';
import type { CellWindow } from '../terrain/grid/grid.ts';
import { toBitmap } from './messages.ts';
import { pictureService } from './picture-service.ts';
import { type PageEnd, serve } from './serve.ts';
import { terrainService } from './terrain-service.ts';

/** Camera data lies at the front; what lies further back is no business of the decoder's either. */
const HEAD_BYTES = 2 ** 20;

/** Decodes a whole JPEG or PNG with the browser's own decoder, as it is stored. */
async function decodePicture(file: Blob): Promise<DecodedPicture> {
  const bitmap = await createImageBitmap(await withoutExif(file), {
    colorSpaceConversion: 'none',
    premultiplyAlpha: 'none',
  });
  const { width: columns, height: rows } = bitmap;
  return { columns, rows, read: (window) => Promise.resolve({ ...window, rgba: pixelsOf(bitmap, window) }) };
}

function pixelsOf(bitmap: ImageBitmap, { column, row, columns, rows }: CellWindow): Uint8ClampedArray<ArrayBuffer> {
  const context = new OffscreenCanvas(columns, rows).getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error('drawing context of a canvas: found none, expected one');
  context.drawImage(bitmap, -column, -row);
  return new Uint8ClampedArray(context.getImageData(0, 0, columns, rows).data);
}

async function withoutExif(file: Blob): Promise<Blob> {
  const spans = exifSpans(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
  if (spans.length === 0) return file;
  const kept = [0, ...spans.map(({ to }) => to)].map((from, at) => file.slice(from, spans[at]?.from ?? file.size));
  return new Blob(kept);
}

/** The browser's own JPEG decoder. */
const decodeJpeg: DecodeJpeg = async (file) => {
  const bitmap = await createImageBitmap(new Blob([file], { type: 'image/jpeg' }), { colorSpaceConversion: 'none' });
  const { width, height } = bitmap;
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error('drawing context of a canvas: found none, expected one');
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  return { columns: width, rows: height, rgba: new Uint8ClampedArray(context.getImageData(0, 0, width, height).data) };
};

/** Good enough to find a fence by, and a tenth of the bytes of the pixels. */
const JPEG_QUALITY = 0.8;

/** The browser's own JPEG encoder. */
async function asJpeg({ rgba, columns, rows }: Pixels): Promise<ArrayBuffer> {
  const canvas = new OffscreenCanvas(columns, rows);
  const context = canvas.getContext('2d');
  if (!context) throw new Error('drawing context of a canvas: found none, expected one');
  context.putImageData(new ImageData(new Uint8ClampedArray(rgba), columns, rows), 0, 0);
  return (await canvas.convertToBlob({ type: 'image/jpeg', quality: JPEG_QUALITY })).arrayBuffer();
}

declare const self: PageEnd;

// The page hears of the end of a worker; what a promise threw is no end by itself.
addEventListener('unhandledrejection', ({ reason }) => reportError(reason));

serve(self, {
  ...terrainService(toBitmap),
  ...pictureService(toBitmap, { jpeg: decodeJpeg, whole: decodePicture, asJpeg }),
});
