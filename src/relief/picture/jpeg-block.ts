/** Decodes one whole JPEG picture into pixels, four bytes each. The browser or a test supplies it. */
export type DecodeJpeg = (
  file: Uint8Array<ArrayBuffer>,
) => Promise<{ readonly columns: number; readonly rows: number; readonly rgba: Uint8ClampedArray<ArrayBuffer> }>;

const MARKER_BYTES = 2;
/** Application segment that says the three components are red, green, blue and not luminance and chroma. */
const ADOBE_RGB = Uint8Array.of(0xff, 0xee, 0x00, 0x0e, 0x41, 0x64, 0x6f, 0x62, 0x65, 0x00, 0x64, 0, 0, 0, 0, 0);

/**
 * Makes a block of a TIFF a JPEG file of its own: start marker, the shared tables without their markers, then the block.
 * Source: TIFF Technical Note 2, Adobe, 1995, on JPEGTables; the Adobe segment, ITU-T T.872, 2012, section 6.5.3.
 */
export function wholeJpeg(block: Uint8Array, tables: Uint8Array | null, isRgb: boolean): Uint8Array<ArrayBuffer> {
  const start = block.subarray(0, MARKER_BYTES);
  const shared = tables ? tables.subarray(MARKER_BYTES, Math.max(MARKER_BYTES, tables.length - MARKER_BYTES)) : null;
  const parts = [start, isRgb ? ADOBE_RGB : null, shared, block.subarray(MARKER_BYTES)].filter((part) => part !== null);
  const file = new Uint8Array(parts.reduce((length, part) => length + part.length, 0));
  let at = 0;
  for (const part of parts) {
    file.set(part, at);
    at += part.length;
  }
  return file;
}
