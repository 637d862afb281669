import { refuse } from '../bytes/file-refusal.ts';
import type { PagedBytes } from './paged-bytes.ts';

/** What the first bytes of a TIFF say. Source: TIFF 6.0, Adobe, 1992, section 2; BigTIFF design, libtiff. */
export interface TiffHeader {
  readonly littleEndian: boolean;
  /** BigTIFF: 64-bit offsets. */
  readonly big: boolean;
  readonly firstDirectory: number;
}

const LITTLE_ENDIAN = 0x4949;
const BIG_ENDIAN = 0x4d4d;
const CLASSIC = 42;
const BIG = 43;
const BIG_OFFSET_BYTES = 8;

/** Whether the first bytes look like a TIFF at all. */
export function looksLikeTiff(head: Uint8Array): boolean {
  const mark = ((head[0] ?? 0) << 8) | (head[1] ?? 0);
  return mark === LITTLE_ENDIAN || mark === BIG_ENDIAN;
}

export async function readTiffHeader(bytes: PagedBytes): Promise<TiffHeader> {
  const { size } = bytes.source;
  if (size < 16) refuse({ code: 'not-a-tiff', where: '', found: `${size} bytes`, expected: 'at least 16 bytes' });
  const head = await bytes.bytes(0, 16, 'header');
  if (!looksLikeTiff(head)) {
    refuse({ code: 'not-a-tiff', where: '', found: hex(head.subarray(0, 4)), expected: 'a TIFF that starts II or MM' });
  }
  const littleEndian = head[0] === LITTLE_ENDIAN >> 8;
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  const version = view.getUint16(2, littleEndian);
  if (version === CLASSIC) return { littleEndian, big: false, firstDirectory: view.getUint32(4, littleEndian) };
  if (version !== BIG) {
    refuse({ code: 'not-a-tiff', where: 'header', found: `version ${version}`, expected: '42 (TIFF) or 43 (BigTIFF)' });
  }
  const width = view.getUint16(4, littleEndian);
  if (width !== BIG_OFFSET_BYTES) {
    refuse({ code: 'not-a-tiff', where: 'header', found: `${width}-byte offsets`, expected: '8-byte offsets' });
  }
  return { littleEndian, big: true, firstDirectory: readUint64(view, 8, littleEndian) };
}

/** A 64-bit whole number; beyond 2^53 it comes back as infinity, which no later check lets through. */
export function readUint64(view: DataView, at: number, littleEndian: boolean): number {
  const low = view.getUint32(littleEndian ? at : at + 4, littleEndian);
  const high = view.getUint32(littleEndian ? at + 4 : at, littleEndian);
  const value = high * 2 ** 32 + low;
  return Number.isSafeInteger(value) ? value : Number.POSITIVE_INFINITY;
}

function hex(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join(' ');
}
