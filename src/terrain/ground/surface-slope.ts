import type { Ratio } from '../../units/quantity.ts';
import type { HeightBlock } from '../grid/grid.ts';
import type { CellOnGround, CellPlace } from '../grid/placed-grid.ts';

/** Rise per cell, along a column step and along a row step, m. */
export interface CellGradient {
  readonly perColumn: number;
  readonly perRow: number;
}

/** Index in a block of the cell that a place lies in; null outside the block. */
export function cellIndex(block: HeightBlock, column: number, row: number): number | null {
  const c = column - block.column;
  const r = row - block.row;
  return c >= 0 && c < block.columns && r >= 0 && r < block.rows ? r * block.columns + c : null;
}

/** Height of a whole cell; null where unknown. */
export function heightOf(block: HeightBlock, column: number, row: number): number | null {
  const at = cellIndex(block, column, row);
  return at === null || block.known[at] === 0 ? null : (block.heights[at] ?? null);
}

/** Weight of a neighbour by how far off it lies in columns or rows: 1, 2, 1. */
const WEIGHT: Readonly<Record<number, number>> = { [-1]: 1, 0: 2, 1: 1 };

/**
 * Gradient at the cell that holds a place: the plane through it and its neighbours of least weighted squares, weights
 * (1 2 1; 2 4 2; 1 2 1). With all eight neighbours that is Horn's gradient; at an edge or a void the known ones decide.
 * Zero where they do not span a plane.
 * Source: B. K. P. Horn, Hill shading and the reflectance map, Proceedings of the IEEE 69(1), 1981, pages 14-47.
 */
export function gradientAt(block: HeightBlock, place: CellPlace): CellGradient {
  const column = nearest(place.column, block.column, block.columns);
  const row = nearest(place.row, block.row, block.rows);
  const sums = { w: 0, x: 0, y: 0, xx: 0, xy: 0, yy: 0, z: 0, xz: 0, yz: 0 };
  const middle = heightOf(block, column, row) ?? 0;
  for (let y = -1; y <= 1; y++) {
    for (let x = -1; x <= 1; x++) {
      const height = heightOf(block, column + x, row + y);
      if (height !== null) addNeighbour(sums, x, y, height - middle);
    }
  }
  return planeThrough(sums);
}

const nearest = (place: number, first: number, count: number): number =>
  Math.min(Math.max(Math.floor(place), first), first + count - 1);

type Sums = Record<'w' | 'x' | 'y' | 'xx' | 'xy' | 'yy' | 'z' | 'xz' | 'yz', number>;

function addNeighbour(s: Sums, x: number, y: number, z: number): void {
  const w = (WEIGHT[x] ?? 0) * (WEIGHT[y] ?? 0);
  s.w += w;
  s.x += w * x;
  s.y += w * y;
  s.xx += w * x * x;
  s.xy += w * x * y;
  s.yy += w * y * y;
  s.z += w * z;
  s.xz += w * x * z;
  s.yz += w * y * z;
}

/** Below this share of the full neighbourhood's spread the known cells lie in a line. */
const SPREAD = 1e-9;

/** Normal equations of z = a + p x + q y, reduced by the means. Source: closed form. */
function planeThrough(s: Sums): CellGradient {
  if (s.w === 0) return { perColumn: 0, perRow: 0 };
  const xx = s.xx - (s.x * s.x) / s.w;
  const xy = s.xy - (s.x * s.y) / s.w;
  const yy = s.yy - (s.y * s.y) / s.w;
  const xz = s.xz - (s.x * s.z) / s.w;
  const yz = s.yz - (s.y * s.z) / s.w;
  const determinant = xx * yy - xy * xy;
  if (determinant <= SPREAD) return { perColumn: 0, perRow: 0 };
  return { perColumn: (xz * yy - yz * xy) / determinant, perRow: (yz * xx - xz * xy) / determinant };
}

/**
 * Slope on the ground, rise over run: |J⁻ᵀ g|, g the gradient per cell, J how a cell's steps move on the ground.
 * Source: chain rule, closed form.
 */
export function slopeOf(gradient: CellGradient, cell: CellOnGround): Ratio {
  const { eastPerColumn: a, northPerColumn: b, eastPerRow: c, northPerRow: d } = cell;
  const determinant = a * d - b * c;
  const east = (d * gradient.perColumn - b * gradient.perRow) / determinant;
  const north = (a * gradient.perRow - c * gradient.perColumn) / determinant;
  return Math.hypot(east, north);
}
