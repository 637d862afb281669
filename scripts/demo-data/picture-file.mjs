import { pictureFields } from './geo-fields.mjs';
import { differenced } from './predictor.mjs';
import { field, TILE, tiledTiff } from './tiff.mjs';

/** Step of the stored colours: too small to see, and the file packs better. */
const STEP = 4;

const stored = (value) => Math.min(255, Math.max(0, Math.round(value / STEP) * STEP));

function tileAt(picture, column, row) {
  const tile = new Uint8Array(TILE * TILE * 3);
  const width = Math.min(TILE, picture.columns - column);
  const height = Math.min(TILE, picture.rows - row);
  for (let r = 0; r < height; r++) {
    for (let c = 0; c < width; c++) {
      const cell = (row + r) * picture.columns + column + c;
      const at = (r * TILE + c) * 3;
      const light = picture.light[cell];
      tile[at] = stored(picture.red[cell] * light);
      tile[at + 1] = stored(picture.green[cell] * light);
      tile[at + 2] = stored(picture.blue[cell] * light);
    }
  }
  return tile;
}

/**
 * The picture as a GeoTIFF: red, green, blue, 8 bits each, horizontal differencing.
 *
 * @param {ReturnType<typeof import('./canvas.mjs').canvas>} picture
 */
export function pictureFile(picture) {
  const shape = { columns: TILE, rows: TILE, samples: 3 };
  const encodeTile = (column, row) => differenced(tileAt(picture, column, row), shape);
  return tiledTiff({ columns: picture.columns, rows: picture.rows, encodeTile }, [
    field(258, 'short', [8, 8, 8]),
    field(262, 'short', 2),
    field(277, 'short', 3),
    field(284, 'short', 1),
    field(317, 'short', 2),
    field(339, 'short', [1, 1, 1]),
    ...pictureFields(picture.cell),
  ]);
}
