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
