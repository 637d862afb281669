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

const MARKER = 0xff;
const START_OF_SCAN = 0xda;
const STANDALONE = new Set([0xd8, 0xd9, 0x01, 0xd0, 0xd1, 0xd2, 0xd3, 0xd4, 0xd5, 0xd6, 0xd7]);
/** Start of frame C0 to CF, without the table segments C4, C8 and CC. */
const isFrame = (code: number): boolean =>
  code >= 0xc0 && code <= 0xcf && code !== 0xc4 && code !== 0xc8 && code !== 0xcc;

/**
 * Size of a JPEG picture from its frame header, so that a block that claims to be huge is never decoded; null when there
 * is no frame header before the scan. Source: ITU-T T.81, 1992, annex B.
 */
export function jpegSize(file: Uint8Array): { readonly columns: number; readonly rows: number } | null {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  let at = 0;
  while (at + 4 <= file.length) {
    const code = file[at + 1] ?? 0;
    if (file[at] !== MARKER || code === START_OF_SCAN) return null;
    if (STANDALONE.has(code)) at += 2;
    else if (isFrame(code)) {
      return at + 9 <= file.length ? { rows: view.getUint16(at + 5), columns: view.getUint16(at + 7) } : null;
    } else at += 2 + view.getUint16(at + 2);
  }
  return null;
}
