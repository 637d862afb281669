import { SITE } from './site.mjs';
import { field } from './tiff.mjs';

/** Codes of OGC GeoTIFF 1.1 (19-008r4) and of the EPSG registry. */
const PROJECTED = 1;
const PIXEL_IS_AREA = 1;
const METRE = 9001;
/** Height above mean sea level, not tied to any survey. */
const MEAN_SEA_LEVEL = 5714;

/**
 * The fields that place an image of the whole site on its UTM grid.
 *
 * @param {number} cell size of a cell, m
 */
function placed(cell) {
  return [
    field(33550, 'double', [cell, cell, 0]),
    field(33922, 'double', [0, 0, 0, SITE.west, SITE.south + SITE.height, 0]),
  ];
}

function geoKeys(keys) {
  return field(34735, 'short', [1, 1, 1, keys.length, ...keys.flatMap(([key, value]) => [key, 0, 1, value])]);
}

const HORIZONTAL = [
  [1024, PROJECTED],
  [1025, PIXEL_IS_AREA],
  [3072, SITE.epsg],
];

/** @param {number} cell */
export function pictureFields(cell) {
  return [...placed(cell), geoKeys(HORIZONTAL)];
}

/** @param {number} cell */
export function elevationFields(cell) {
  return [...placed(cell), geoKeys([...HORIZONTAL, [4096, MEAN_SEA_LEVEL], [4099, METRE]])];
}
