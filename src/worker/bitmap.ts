/** Makes a picture of pixels, four bytes each, not premultiplied, in a square. */
export type ToBitmap = (pixels: Uint8ClampedArray<ArrayBuffer>, size: number) => Promise<ImageBitmap>;

export const toBitmap: ToBitmap = (pixels, size) =>
  createImageBitmap(new ImageData(pixels, size, size), { premultiplyAlpha: 'none', colorSpaceConversion: 'none' });
