import { elevationFields } from './geo-fields.mjs';
import { FINE } from './ground.mjs';
import { floatDifferenced } from './predictor.mjs';
import { field, TILE, tiledTiff } from './tiff.mjs';

/** Step of the stored heights: 1/128 m, below 8 mm and exact in binary, so that the file packs well. */
export const QUANTUM = 1 / 128;

const NODATA = -9999;

/**
 * @param {Float64Array} heights
 * @returns {Float32Array}
 */
export function quantised(heights) {
  return Float32Array.from(heights, (height) => Math.round(height / QUANTUM) * QUANTUM);
}

function tileAt(heights, column, row) {
  const tile = new Float32Array(TILE * TILE).fill(NODATA);
  const width = Math.min(TILE, FINE.columns - column);
  const height = Math.min(TILE, FINE.rows - row);
  for (let r = 0; r < height; r++) {
    const from = (row + r) * FINE.columns + column;
    tile.set(heights.subarray(from, from + width), r * TILE);
  }
  return tile;
}

/**
 * The elevation model as a GeoTIFF: 32-bit floats, floating point predictor.
 *
 * @param {Float32Array} heights
 */
export function elevationFile(heights) {
  const shape = { columns: TILE, rows: TILE };
  const encodeTile = (column, row) => floatDifferenced(tileAt(heights, column, row), shape);
  return tiledTiff({ columns: FINE.columns, rows: FINE.rows, encodeTile }, [
    field(258, 'short', 32),
    field(262, 'short', 1),
    field(277, 'short', 1),
    field(284, 'short', 1),
    field(317, 'short', 3),
    field(339, 'short', 3),
    ...elevationFields(FINE.cell),
    field(42113, 'ascii', String(NODATA)),
  ]);
}
