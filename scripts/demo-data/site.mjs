/**
 * Where the invented valley lies: in the open Atlantic, on a UTM grid, so that nobody takes it for a farm.
 *
 * Local coordinates are metres east (x) and north (y) of the south-west corner.
 */
export const SITE = {
  /** WGS 84 / UTM zone 24N. */
  epsg: 32624,
  projString: '+proj=utm +zone=24 +datum=WGS84 +units=m +no_defs',
  west: 412000,
  south: 4206000,
  width: 1000,
  height: 900,
};

/**
 * @param {number} x
 * @param {number} y
 */
export function gridCoordinates(x, y) {
  return { easting: SITE.west + x, northing: SITE.south + y };
}
