/** Makes a square picture of pixels, four bytes each, not premultiplied; the picture is, as the map library draws it. */
export type ToBitmap = (pixels: Uint8ClampedArray<ArrayBuffer>, size: number) => Promise<ImageBitmap>;

export const toBitmap: ToBitmap = (pixels, size) =>
  createImageBitmap(new ImageData(pixels, size, size), {
    premultiplyAlpha: 'premultiply',
    colorSpaceConversion: 'none',
  });
