/**
 * Horizontal differencing of 8-bit samples within each row (TIFF 6.0, section 14), in place.
 *
 * @param {Uint8Array} tile
 * @param {{ columns: number, rows: number, samples: number }} shape
 */
export function differenced(tile, { columns, rows, samples }) {
  const stride = columns * samples;
  for (let row = 0; row < rows; row++) {
    for (let k = (row + 1) * stride - 1; k >= row * stride + samples; k--) tile[k] -= tile[k - samples];
  }
  return tile;
}

/**
 * Floating point differencing (Adobe Photoshop TIFF technical note 3, 2005): in each row the bytes of all samples are
 * laid out by significance, highest first, and then differenced byte by byte.
 *
 * @param {Float32Array} tile
 * @param {{ columns: number, rows: number }} shape
 */
export function floatDifferenced(tile, { columns, rows }) {
  const bytes = new Uint8Array(columns * rows * 4);
  const view = new DataView(new ArrayBuffer(4));
  for (let row = 0; row < rows; row++) {
    const start = row * columns * 4;
    for (let column = 0; column < columns; column++) {
      view.setFloat32(0, tile[row * columns + column]);
      for (let k = 0; k < 4; k++) bytes[start + k * columns + column] = view.getUint8(k);
    }
    for (let k = start + columns * 4 - 1; k > start; k--) bytes[k] -= bytes[k - 1];
  }
  return bytes;
}
