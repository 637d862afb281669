import { deflateSync } from 'node:zlib';

export const TILE = 256;

/** Field types of TIFF 6.0 and the bytes each value takes. */
const FIELD = {
  ascii: { code: 2, bytes: 1, put: (view, at, value) => view.setUint8(at, value) },
  short: { code: 3, bytes: 2, put: (view, at, value) => view.setUint16(at, value, true) },
  long: { code: 4, bytes: 4, put: (view, at, value) => view.setUint32(at, value, true) },
  double: { code: 12, bytes: 8, put: (view, at, value) => view.setFloat64(at, value, true) },
};

const HEADER_BYTES = 8;
const ENTRY_BYTES = 12;

/**
 * One field of the image file directory.
 *
 * @param {number} tag
 * @param {keyof typeof FIELD} type
 * @param {number | readonly number[] | string} value
 */
export function field(tag, type, value) {
  const values = typeof value === 'string' ? [...Buffer.from(`${value}\0`, 'latin1')] : [value].flat();
  return { tag, type: FIELD[type], values };
}

/**
 * The bytes of a tiled, DEFLATE-compressed, little-endian TIFF with one image.
 *
 * @param {{ columns: number, rows: number, encodeTile: (column: number, row: number) => Uint8Array }} image
 *   `encodeTile` gives the bytes of the tile whose first cell is (column, row), before compression
 * @param {ReturnType<typeof field>[]} described fields that say what the samples are and where they lie
 */
export function tiledTiff({ columns, rows, encodeTile }, described) {
  const tiles = [];
  for (let row = 0; row < rows; row += TILE) {
    for (let column = 0; column < columns; column += TILE)
      tiles.push(deflateSync(encodeTile(column, row), { level: 9 }));
  }
  const directory = (offsets) =>
    [
      field(256, 'long', columns),
      field(257, 'long', rows),
      field(259, 'short', 8),
      field(322, 'short', TILE),
      field(323, 'short', TILE),
      field(324, 'long', offsets),
      field(
        325,
        'long',
        tiles.map((tile) => tile.length),
      ),
      ...described,
    ].sort((a, b) => a.tag - b.tag);
  return assembled(directory, tiles);
}

function assembled(directory, tiles) {
  const start = HEADER_BYTES + directoryBytes(directory(tiles.map(() => 0)));
  const offsets = [];
  let end = start;
  for (const tile of tiles) {
    offsets.push(end);
    end += tile.length;
  }
  const bytes = new Uint8Array(end);
  const view = new DataView(bytes.buffer);
  bytes.set([0x49, 0x49, 42, 0, HEADER_BYTES]);
  putDirectory(view, directory(offsets));
  tiles.forEach((tile, k) => {
    bytes.set(tile, offsets[k]);
  });
  return bytes;
}

const valueBytes = ({ type, values }) => type.bytes * values.length;
const apartBytes = (entry) => (valueBytes(entry) > 4 ? valueBytes(entry) + (valueBytes(entry) % 2) : 0);

function directoryBytes(fields) {
  return 2 + fields.length * ENTRY_BYTES + 4 + fields.reduce((sum, entry) => sum + apartBytes(entry), 0);
}

function putDirectory(view, fields) {
  let at = HEADER_BYTES;
  let apart = HEADER_BYTES + 2 + fields.length * ENTRY_BYTES + 4;
  view.setUint16(at, fields.length, true);
  at += 2;
  for (const entry of fields) {
    view.setUint16(at, entry.tag, true);
    view.setUint16(at + 2, entry.type.code, true);
    view.setUint32(at + 4, entry.values.length, true);
    const inside = apartBytes(entry) === 0;
    if (!inside) view.setUint32(at + 8, apart, true);
    const from = inside ? at + 8 : apart;
    entry.values.forEach((value, k) => {
      entry.type.put(view, from + k * entry.type.bytes, value);
    });
    apart += apartBytes(entry);
    at += ENTRY_BYTES;
  }
}
