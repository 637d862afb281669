const EXIF = [0x45, 0x78, 0x69, 0x66, 0x00, 0x00];
const APP1 = 0xe1;
const MARKER = 0xff;
const START_OF_SCAN = 0xda;

/**
 * Where a JPEG holds camera data, in bytes from its start. Decoders turn a picture by the orientation in it; a world file means
 * the pixels as they are stored. Source: Exif 2.32, CIPA DC-008, 2019, section 4.5.4; ITU-T T.81, 1992, annex B.
 */
export function exifSpans(head: Uint8Array): readonly { readonly from: number; readonly to: number }[] {
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  const spans: { from: number; to: number }[] = [];
  let at = 2;
  while (head[0] === MARKER && head[1] === 0xd8 && at + 4 <= head.length && head[at] === MARKER) {
    if (head[at + 1] === START_OF_SCAN) break;
    const to = at + 2 + view.getUint16(at + 2);
    const isExif = head[at + 1] === APP1 && EXIF.every((byte, k) => head[at + 4 + k] === byte);
    if (isExif) spans.push({ from: at, to });
    at = to;
  }
  return spans;
}
