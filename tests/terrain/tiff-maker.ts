import { deflateSync } from 'node:zlib';

/** One entry of a directory: its numbers, or its text. */
export interface MadeEntry {
  readonly tag: number;
  /** 2 text, 3 short, 4 long, 12 double. */
  readonly type: number;
  readonly values: readonly number[] | string;
  /** States another count than there are values. */
  readonly count?: number;
}

const SIZES: Readonly<Record<number, number>> = { 1: 1, 2: 1, 3: 2, 4: 4, 12: 8 };

/**
 * A small TIFF written byte by byte from TIFF 6.0 (Adobe, 1992, section 2), with the reader's code left out of it.
 * Blocks come first and their offsets and byte counts are filled in; then the directory and its long values.
 */
export function makeTiff(
  entries: readonly MadeEntry[],
  blocks: readonly Uint8Array[],
  form: { tiled?: boolean; bigEndian?: boolean; next?: number } = {},
): Uint8Array {
  const little = form.bigEndian !== true;
  let at = 8;
  const offsets = blocks.map((block) => {
    const offset = at;
    at += block.length + (block.length % 2);
    return offset;
  });
  const [offsetTag, countTag] = form.tiled === true ? [324, 325] : [273, 279];
  const stated = new Set(entries.map(({ tag }) => tag));
  const all = [
    ...entries,
    ...(stated.has(offsetTag) ? [] : [{ tag: offsetTag, type: 4, values: offsets }]),
    ...(stated.has(countTag) ? [] : [{ tag: countTag, type: 4, values: blocks.map((block) => block.length) }]),
  ].sort((p, q) => p.tag - q.tag);
  const directory = at;
  const longAt = directory + 2 + 12 * all.length + 4;
  const longBytes = all.reduce((sum, entry) => sum + (bytesOf(entry) > 4 ? bytesOf(entry) : 0), 0);
  const bytes = new Uint8Array(longAt + longBytes);
  const view = new DataView(bytes.buffer);
  bytes.set(little ? [0x49, 0x49] : [0x4d, 0x4d]);
  view.setUint16(2, 42, little);
  view.setUint32(4, directory, little);
  for (const [i, block] of blocks.entries()) bytes.set(block, offsets[i]);
  view.setUint16(directory, all.length, little);
  let next = longAt;
  for (const [i, entry] of all.entries()) {
    const place = directory + 2 + 12 * i;
    view.setUint16(place, entry.tag, little);
    view.setUint16(place + 2, entry.type, little);
    view.setUint32(place + 4, entry.count ?? entry.values.length, little);
    const long = bytesOf(entry) > 4;
    if (long) view.setUint32(place + 8, next, little);
    writeValues(view, long ? next : place + 8, entry, little);
    if (long) next += bytesOf(entry);
  }
  view.setUint32(directory + 2 + 12 * all.length, form.next ?? 0, little);
  return bytes;
}

function bytesOf({ type, values }: MadeEntry): number {
  return values.length * (SIZES[type] ?? 1);
}

function writeValues(view: DataView, from: number, { type, values }: MadeEntry, little: boolean): void {
  for (let i = 0; i < values.length; i++) {
    const at = from + i * (SIZES[type] ?? 1);
    const value = typeof values === 'string' ? values.charCodeAt(i) : (values[i] ?? 0);
    if (type === 3) view.setUint16(at, value, little);
    else if (type === 4) view.setUint32(at, value, little);
    else if (type === 12) view.setFloat64(at, value, little);
    else view.setUint8(at, value);
  }
}

export const COLUMNS = 12;
export const ROWS = 10;

/** Invented heights: a tilted plane with some roughness. */
export const HEIGHTS = Float32Array.from({ length: COLUMNS * ROWS }, (_, i) => {
  const column = i % COLUMNS;
  const row = Math.floor(i / COLUMNS);
  return 300 + 0.4 * column - 0.7 * row + 0.05 * Math.sin(3 * column + 7 * row);
});

export const UTM_KEYS = [1, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 32630];

/** What a plain DEM of one strip states; entries of the same tag take the place of these. */
export function demEntries(changes: readonly MadeEntry[] = []): MadeEntry[] {
  const usual: MadeEntry[] = [
    { tag: 256, type: 3, values: [COLUMNS] },
    { tag: 257, type: 3, values: [ROWS] },
    { tag: 258, type: 3, values: [32] },
    { tag: 259, type: 3, values: [8] },
    { tag: 262, type: 3, values: [1] },
    { tag: 277, type: 3, values: [1] },
    { tag: 278, type: 3, values: [ROWS] },
    { tag: 339, type: 3, values: [3] },
    { tag: 33550, type: 12, values: [2, 2, 0] },
    { tag: 33922, type: 12, values: [0, 0, 0, 500000, 4200000, 0] },
    { tag: 34735, type: 3, values: UTM_KEYS },
  ];
  const changed = new Set(changes.map(({ tag }) => tag));
  return [...usual.filter(({ tag }) => !changed.has(tag)), ...changes];
}

/** Entries without one of the usual ones. */
export function without(tag: number): MadeEntry[] {
  return demEntries().filter((entry) => entry.tag !== tag);
}

export function packed(values: ArrayBufferView): Uint8Array {
  return new Uint8Array(deflateSync(new Uint8Array(values.buffer, values.byteOffset, values.byteLength)));
}

/** A plain DEM of one DEFLATE strip with some entries changed. */
export function makeDem(changes: readonly MadeEntry[] = [], values: ArrayBufferView = HEIGHTS): Uint8Array {
  return makeTiff(demEntries(changes), [packed(values)]);
}
