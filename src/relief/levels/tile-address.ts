/** A square of the Web Mercator tile pyramid: zoom, column from the west, row from the north. */
export interface TileAddress {
  readonly z: number;
  readonly x: number;
  readonly y: number;
}
