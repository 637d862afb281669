import type { CellWindow, ElevationGrid, HeightBlock } from '../../terrain/grid/grid.ts';
import type { BlockCache } from './block-cache.ts';
import { emptyHeights, type Heights } from './heights.ts';

/** A coarse cell is known when at least this many of its four finer cells are, so that voids neither grow nor vanish. */
const ENOUGH = 2;

/** Writes the 2 × 2 means of a finer block into the cells of the coarser block that it covers. */
function halveBlock(fine: Heights, coarse: Heights): void {
  const endRow = Math.ceil((fine.row + fine.rows) / 2);
  const endColumn = Math.ceil((fine.column + fine.columns) / 2);
  for (let row = fine.row / 2; row < endRow; row += 1) {
    for (let column = fine.column / 2; column < endColumn; column += 1) {
      const at = (row - coarse.row) * coarse.columns + column - coarse.column;
      writeMean(fine, 2 * column - fine.column, 2 * row - fine.row, coarse, at);
    }
  }
}

function writeMean(fine: Heights, left: number, top: number, coarse: Heights, at: number): void {
  let sum = 0;
  let count = 0;
  let cells = 0;
  for (let row = top; row < Math.min(top + 2, fine.rows); row += 1) {
    for (let column = left; column < Math.min(left + 2, fine.columns); column += 1) {
      const cell = row * fine.columns + column;
      cells += 1;
      if (fine.known[cell] === 0) continue;
      sum += fine.heights[cell] ?? 0;
      count += 1;
    }
  }
  if (count < Math.min(ENOUGH, cells)) return;
  coarse.heights[at] = sum / count;
  coarse.known[at] = 1;
}

/** Side of the blocks that are kept, cells. */
const SIDE = 256;
/** A level whose blocks would need more cells of the file than 2^(8+8+2·4) each is not made. */
const MOST_HALVINGS = 4;

/** A coarser or equal copy of a grid: one cell of it covers `scale` × `scale` cells of `base`. */
export interface PyramidLevel {
  readonly base: ElevationGrid;
  readonly halvings: number;
  readonly scale: number;
  readonly columns: number;
  readonly rows: number;
}

/** Heights of a grid at any coarseness for drawing: the file's own overviews first, means of 2 × 2 cells beyond them. */
export class HeightPyramid {
  readonly grid: ElevationGrid;
  readonly #bases: readonly ElevationGrid[];
  readonly #cache: BlockCache<Heights>;

  constructor(grid: ElevationGrid, cache: BlockCache<Heights>) {
    this.grid = grid;
    this.#bases = [grid, ...grid.overviews];
    this.#cache = cache;
  }

  /** The coarsest level whose cell is at most `cells` cells of the finest grid; null when none is near enough. */
  level(cells: number): PyramidLevel | null {
    let base = this.grid;
    for (const candidate of this.#bases) if (this.#factor(candidate) <= cells) base = candidate;
    const halvings = Math.max(0, Math.floor(Math.log2(Math.max(1, cells) / this.#factor(base))));
    if (halvings > MOST_HALVINGS && base.columns * base.rows > SIDE * SIDE * 4 ** MOST_HALVINGS) return null;
    const scale = 2 ** halvings;
    return { base, halvings, scale, columns: Math.ceil(base.columns / scale), rows: Math.ceil(base.rows / scale) };
  }

  /** How many cells of the finest grid one cell of a level is wide. */
  cellsOf(level: PyramidLevel): number {
    return this.#factor(level.base) * level.scale;
  }

  /** Heights of any window of a level; beyond its edge nothing is known. */
  async read(level: PyramidLevel, window: CellWindow, signal?: AbortSignal): Promise<Heights> {
    const out = emptyHeights(window);
    const right = Math.min(level.columns, window.column + window.columns);
    const bottom = Math.min(level.rows, window.row + window.rows);
    for (let y = Math.floor(Math.max(0, window.row) / SIDE); y * SIDE < bottom; y += 1) {
      for (let x = Math.floor(Math.max(0, window.column) / SIDE); x * SIDE < right; x += 1) {
        signal?.throwIfAborted();
        copyOverlap(await this.#block(level.base, level.halvings, x, y), out);
      }
    }
    return out;
  }

  #factor(base: ElevationGrid): number {
    return this.grid.columns / base.columns;
  }

  /** Blocks are shared between those who ask, so no single asker's signal ends the reading of one. */
  #block(base: ElevationGrid, halvings: number, x: number, y: number): Promise<Heights> {
    const key = `${this.#bases.indexOf(base)}/${halvings}/${x}/${y}`;
    return this.#cache.take(this, key, () =>
      halvings === 0 ? readBlock(base, x, y) : this.#halved(base, halvings, x, y),
    );
  }

  async #halved(base: ElevationGrid, halvings: number, x: number, y: number): Promise<Heights> {
    const scale = 2 ** halvings;
    const window = clipped(x, y, Math.ceil(base.columns / scale), Math.ceil(base.rows / scale));
    const out = emptyHeights(window);
    const finer = scale / 2;
    const last = { x: Math.ceil(base.columns / finer / SIDE), y: Math.ceil(base.rows / finer / SIDE) };
    for (const [dx, dy] of QUARTERS) {
      const child = { x: 2 * x + dx, y: 2 * y + dy };
      if (child.x >= last.x || child.y >= last.y) continue;
      halveBlock(await this.#block(base, halvings - 1, child.x, child.y), out);
    }
    return out;
  }
}

const QUARTERS = [
  [0, 0],
  [1, 0],
  [0, 1],
  [1, 1],
] as const;

function clipped(x: number, y: number, columns: number, rows: number): CellWindow {
  const column = x * SIDE;
  const row = y * SIDE;
  return { column, row, columns: Math.min(SIDE, columns - column), rows: Math.min(SIDE, rows - row) };
}

async function readBlock(base: ElevationGrid, x: number, y: number): Promise<Heights> {
  const block: HeightBlock = await base.read(clipped(x, y, base.columns, base.rows));
  const { column, row, columns, rows, known } = block;
  return { column, row, columns, rows, heights: new Float32Array(block.heights), known };
}

function copyOverlap(from: Heights, to: Heights): void {
  const left = Math.max(from.column, to.column);
  const right = Math.min(from.column + from.columns, to.column + to.columns);
  const top = Math.max(from.row, to.row);
  const bottom = Math.min(from.row + from.rows, to.row + to.rows);
  if (left >= right) return;
  for (let row = top; row < bottom; row += 1) {
    const start = (row - from.row) * from.columns + left - from.column;
    const target = (row - to.row) * to.columns + left - to.column;
    to.heights.set(from.heights.subarray(start, start + right - left), target);
    to.known.set(from.known.subarray(start, start + right - left), target);
  }
}
