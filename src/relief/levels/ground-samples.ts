/** Beyond every grid, within a grid but without a height, or with one. */
export const OUTSIDE = 0;
export const VOID = 1;
export const KNOWN = 2;

/** The ground at a lattice of places of a tile, row by row from the north. */
export interface GroundSamples {
  readonly side: number;
  readonly state: Uint8Array;
  readonly heights: Float32Array;
  /** Rise over run towards east and towards north. */
  readonly east: Float32Array;
  readonly north: Float32Array;
  /** How many places are not `KNOWN` yet. */
  missing: number;
}

export function emptySamples(side: number): GroundSamples {
  const size = side * side;
  return {
    side,
    state: new Uint8Array(size),
    heights: new Float32Array(size),
    east: new Float32Array(size),
    north: new Float32Array(size),
    missing: size,
  };
}
