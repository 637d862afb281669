import type { DecodeJpeg } from '../relief/picture/jpeg-block.ts';

/** The browser's own JPEG decoder. */
export const decodeJpeg: DecodeJpeg = async (file) => {
  const bitmap = await createImageBitmap(new Blob([file], { type: 'image/jpeg' }), { colorSpaceConversion: 'none' });
  const { width, height } = bitmap;
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error('drawing context of a canvas: found none, expected one');
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  return { columns: width, rows: height, rgba: new Uint8ClampedArray(context.getImageData(0, 0, width, height).data) };
};
