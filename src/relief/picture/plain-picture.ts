import { refuse } from '../../terrain/bytes/file-refusal.ts';
import type { CellWindow } from '../../terrain/grid/grid.ts';
import { jpegSize } from './jpeg-size.ts';
import type { PictureBase } from './picture-pyramid.ts';
import type { Pixels } from './pixels.ts';

/** A picture that was decoded as a whole, by the browser or in a test; it gives windows of it. */
export interface DecodedPicture {
  readonly columns: number;
  readonly rows: number;
  read(window: CellWindow): Promise<Pixels>;
}

/** Decodes a JPEG or PNG of a known size, its pixels in the order in which they are stored. */
export type DecodePicture = (head: { readonly columns: number; readonly rows: number }) => Promise<DecodedPicture>;

/** A decoded pixel takes four bytes: 64 million of them, such as 8000 × 8000, take 256 MB. */
const MOST_PIXELS = 64_000_000;
const MOST_SIDE = 30_000;
const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** Where the header chunk of a PNG holds the width. Source: ISO/IEC 15948, 11.2.2. */
const PNG_SIZE = 16;

/** Reads the size of a JPEG or PNG from its first bytes and refuses what would not fit the memory, before anything is decoded. */
export function plainPictureSize(head: Uint8Array): { readonly columns: number; readonly rows: number } {
  const size = sizeIn(head);
  if (size === null || size.columns === 0 || size.rows === 0) {
    refuse({ code: 'picture-kind', where: '', found: firstBytes(head), expected: 'a JPEG or PNG with its size' });
  }
  const { columns, rows } = size;
  if (columns * rows > MOST_PIXELS || Math.max(columns, rows) > MOST_SIDE) {
    const expected = `${MOST_PIXELS / 1e6} million pixels at most; a GeoTIFF in tiles may be larger`;
    refuse({ code: 'picture-size', where: '', found: `${columns} × ${rows} pixels`, expected });
  }
  return size;
}

function sizeIn(head: Uint8Array): { readonly columns: number; readonly rows: number } | null {
  if (PNG.every((byte, at) => head[at] === byte) && head.length >= PNG_SIZE + 8) {
    const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
    return { columns: view.getUint32(PNG_SIZE), rows: view.getUint32(PNG_SIZE + 4) };
  }
  return head[0] === 0xff && head[1] === 0xd8 ? jpegSize(head) : null;
}

function firstBytes(head: Uint8Array): string {
  const bytes = [...head.subarray(0, 8)].map((byte) => byte.toString(16).padStart(2, '0'));
  return bytes.length === 0 ? 'an empty file' : `a file that begins ${bytes.join(' ')}`;
}

/** Decodes the picture; one of another size than its head says is refused. */
export async function plainPicture(head: Uint8Array, decode: DecodePicture): Promise<PictureBase> {
  const size = plainPictureSize(head);
  const decoded = await decode(size).catch((error: unknown) => {
    const found = error instanceof Error ? error.message : String(error);
    return refuse({ code: 'picture-decode', where: '', found, expected: 'a picture that this browser can decode' });
  });
  if (decoded.columns === size.columns && decoded.rows === size.rows) return decoded;
  return refuse({
    code: 'picture-decode',
    where: '',
    found: `${decoded.columns} × ${decoded.rows} pixels`,
    expected: `${size.columns} × ${size.rows}, as its head says`,
  });
}
