/** Heights at the corners of squares, row by row from the top; squares with an unknown corner are left out. */
export interface CornerField {
  readonly side: number;
  readonly heights: Float32Array;
  /** 1 where the height is known. */
  readonly known: Uint8Array;
}

/**
 * Pieces of one contour line: from one edge of a square to another, higher ground to the right of the way.
 * An edge is 2 × corner for the edge to the next corner of its row, 2 × corner + 1 for the one to the row below.
 */
export interface ContourPieces {
  readonly level: number;
  /** Edges in pairs: start, end, start, end … */
  readonly edges: number[];
}

const TOP = 0;
const RIGHT = 1;
const BOTTOM = 2;
const LEFT = 3;

/**
 * For each case of corners at or above the level (bit 1 top left, 2 top right, 4 bottom right, 8 bottom left) the pieces
 * as start side and end side. The two saddles (5 and 10) are settled by the mean of the corners, see `saddle`.
 */
const CASES: readonly (readonly number[])[] = [
  [],
  [TOP, LEFT],
  [RIGHT, TOP],
  [RIGHT, LEFT],
  [BOTTOM, RIGHT],
  [TOP, LEFT, BOTTOM, RIGHT],
  [BOTTOM, TOP],
  [BOTTOM, LEFT],
  [LEFT, BOTTOM],
  [TOP, BOTTOM],
  [RIGHT, TOP, LEFT, BOTTOM],
  [RIGHT, BOTTOM],
  [LEFT, RIGHT],
  [TOP, RIGHT],
  [LEFT, TOP],
  [],
];
/** Saddles whose middle is high: the high corners join, the low ones are cut off. */
const JOINED_5 = [TOP, RIGHT, BOTTOM, LEFT];
const JOINED_10 = [RIGHT, BOTTOM, LEFT, TOP];

/** All pieces of the contour lines at multiples of `step`, by multiple. Source: Lorensen and Cline, Marching Cubes, Computer Graphics 21(4), 1987, in two dimensions. */
export function contourPieces(field: CornerField, step: number): Map<number, ContourPieces> {
  const pieces = new Map<number, ContourPieces>();
  for (let row = 0; row + 1 < field.side; row += 1) {
    for (let column = 0; column + 1 < field.side; column += 1) {
      squarePieces(field, row * field.side + column, step, pieces);
    }
  }
  return pieces;
}

function squarePieces(field: CornerField, at: number, step: number, pieces: Map<number, ContourPieces>): void {
  const { side, heights, known } = field;
  if (!known[at] || !known[at + 1] || !known[at + side] || !known[at + side + 1]) return;
  const a = heights[at] ?? 0;
  const b = heights[at + 1] ?? 0;
  const c = heights[at + side + 1] ?? 0;
  const d = heights[at + side] ?? 0;
  const last = Math.floor(Math.max(a, b, c, d) / step);
  for (let multiple = Math.floor(Math.min(a, b, c, d) / step) + 1; multiple <= last; multiple += 1) {
    const level = multiple * step;
    const sides = sidesCrossed(a, b, c, d, level);
    if (sides.length === 0) continue;
    const piece = pieces.get(multiple) ?? { level, edges: [] };
    pieces.set(multiple, piece);
    for (const crossed of sides) piece.edges.push(edgeOf(at, crossed, side));
  }
}

function sidesCrossed(a: number, b: number, c: number, d: number, level: number): readonly number[] {
  const index = (a >= level ? 1 : 0) + (b >= level ? 2 : 0) + (c >= level ? 4 : 0) + (d >= level ? 8 : 0);
  if ((index === 5 || index === 10) && (a + b + c + d) / 4 >= level) return index === 5 ? JOINED_5 : JOINED_10;
  return CASES[index] ?? [];
}

function edgeOf(at: number, crossed: number, side: number): number {
  if (crossed === TOP) return 2 * at;
  if (crossed === LEFT) return 2 * at + 1;
  return crossed === BOTTOM ? 2 * (at + side) : 2 * (at + 1) + 1;
}

/** Where a contour line crosses an edge: column and row among the corners. */
export function crossing(field: CornerField, edge: number, level: number): readonly [number, number] {
  const at = edge >> 1;
  const downwards = (edge & 1) === 1;
  const from = field.heights[at] ?? 0;
  const to = field.heights[downwards ? at + field.side : at + 1] ?? 0;
  const share = to === from ? 0 : (level - from) / (to - from);
  const column = at % field.side;
  const row = Math.floor(at / field.side);
  return downwards ? [column, row + share] : [column + share, row];
}
