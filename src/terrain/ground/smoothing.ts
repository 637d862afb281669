import type { Metres } from '../../units/quantity.ts';
import type { HeightBlock } from '../grid/grid.ts';
import type { CellPlace } from '../grid/placed-grid.ts';
import { heightOf } from './surface-slope.ts';

/** Share of a second difference by which the mean over a cell lies above its middle: ∫x²/2 over a cell of side 1. */
const BLOCK_MEAN = 1 / 24;

/** Share by which a straight line between the middles lies above a parabola, at a share t of the way: t(1 − t)/2. */
const chord = (t: number): number => (t * (1 - t)) / 2;

/**
 * How far cell averaging and bilinear interpolation lift a height where the ground curves; negative on a ridge.
 *
 * bias = Lx (1/24 + t(1−t)/2) + Ly (1/24 + s(1−s)/2); Lx, Ly second differences of the heights along columns and rows at
 * the cell that holds the place, m; t, s shares of a cell beyond the middle. Exact for a quadratic surface of block means;
 * a lower bound on real ground, which curves within a cell. 0 where a neighbour is unknown. Source: derived, closed form.
 */
export function smoothingAt(block: HeightBlock, place: CellPlace): Metres {
  const column = Math.floor(place.column);
  const row = Math.floor(place.row);
  const middle = heightOf(block, column, row);
  const west = heightOf(block, column - 1, row);
  const east = heightOf(block, column + 1, row);
  const above = heightOf(block, column, row - 1);
  const below = heightOf(block, column, row + 1);
  if (middle === null || west === null || east === null || above === null || below === null) return 0;
  const t = shareBeyondMiddle(place.column);
  const s = shareBeyondMiddle(place.row);
  return (west + east - 2 * middle) * (BLOCK_MEAN + chord(t)) + (above + below - 2 * middle) * (BLOCK_MEAN + chord(s));
}

const shareBeyondMiddle = (place: number): number => place - 0.5 - Math.floor(place - 0.5);
