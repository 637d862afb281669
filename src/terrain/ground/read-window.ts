import type { Position } from '../../geodesy/position.ts';
import type { Metres, Ratio } from '../../units/quantity.ts';
import type { Affine, CellWindow, ElevationGrid, HeightBlock } from '../grid/grid.ts';
import {
  type CellOnGround,
  type CellPlace,
  cellOnGround,
  cellSize,
  type PlacedGrid,
  placedGrid,
} from '../grid/placed-grid.ts';
import { levelWithin, windowInCopy } from './window-budget.ts';

/** Cells that are read at a time. */
const CELLS_AT_A_TIME = 1_000_000;

/** Means of squares of `times` × `times` cells of a window, read strip by strip; a square with a void has no height. */
async function meansOf(
  grid: ElevationGrid,
  window: CellWindow,
  times: number,
  signal?: AbortSignal,
): Promise<HeightBlock> {
  const columns = Math.max(1, Math.floor(window.columns / times));
  const rows = Math.max(1, Math.floor(window.rows / times));
  const heights = new Float64Array(columns * rows);
  const known = new Uint8Array(columns * rows);
  const atATime = Math.max(1, Math.floor(CELLS_AT_A_TIME / (window.columns * times)));
  for (let first = 0; first < rows; first += atATime) {
    signal?.throwIfAborted();
    const last = Math.min(rows, first + atATime);
    const strip = {
      ...window,
      row: window.row + first * times,
      rows: Math.min(window.rows, last * times) - first * times,
    };
    const block = await grid.read(strip, signal);
    for (let row = first; row < last; row++) {
      for (let column = 0; column < columns; column++) {
        const mean = meanOf(block, { column: column * times, row: (row - first) * times }, times);
        if (mean === null) continue;
        heights[row * columns + column] = mean;
        known[row * columns + column] = 1;
      }
    }
  }
  return { column: 0, row: 0, columns, rows, heights, known };
}

function meanOf(block: HeightBlock, from: { column: number; row: number }, times: number): number | null {
  let sum = 0;
  for (let r = from.row; r < from.row + times; r++) {
    for (let c = from.column; c < from.column + times; c++) {
      const at = r * block.columns + c;
      if (block.known[at] !== 1) return null;
      sum += block.heights[at] as number;
    }
  }
  return sum / (times * times);
}

/** The first of some places that lies outside a grid. */
export function placeOutside({ grid, cellAt }: PlacedGrid, around: readonly Position[]): Position | undefined {
  return around.find((position) => {
    const cell = cellAt(position);
    return !cell || !isInside(cell, grid);
  });
}

/** The cells of a grid around places and a margin; null where a place lies outside it. */
export function windowAround(placed: PlacedGrid, around: readonly Position[], margin: Metres): CellWindow | null {
  const { grid } = placed;
  const cells = around.map((position) => placed.cellAt(position));
  const inside = cells.flatMap((c) => (c && isInside(c, grid) ? [c] : []));
  const [first] = inside;
  if (!first || inside.length < cells.length) return null;
  const onGround = cellOnGround(placed, first);
  if (!onGround) return null;
  const { width, height } = cellSize(onGround);
  const columns = inside.map((c) => c.column);
  const rows = inside.map((c) => c.row);
  const left = Math.max(0, Math.floor(Math.min(...columns) - margin / width) - 1);
  const top = Math.max(0, Math.floor(Math.min(...rows) - margin / height) - 1);
  const right = Math.min(grid.columns, Math.ceil(Math.max(...columns) + margin / width) + 1);
  const bottom = Math.min(grid.rows, Math.ceil(Math.max(...rows) + margin / height) + 1);
  return { column: left, row: top, columns: right - left, rows: bottom - top };
}

const isInside = ({ column, row }: CellPlace, grid: ElevationGrid): boolean =>
  column >= 0 && column <= grid.columns && row >= 0 && row <= grid.rows;

/** Heights in cells of their own, with the way from positions to them and back. */
export interface ReadWindow {
  /** Its `column` and `row` are 0: cell places count from its own corner. */
  readonly block: HeightBlock;
  /** A step of one cell on the ground, near the middle. */
  readonly cell: CellOnGround;
  /** The grid it was read from: one of the terrain's, which may have several. */
  readonly file: string;
  /** How many of the file's cells one cell is wide: 1 unless a copy or means were taken. */
  readonly coarser: Ratio;
  /** From its own cells to the coordinates of the grid's CRS. */
  readonly affine: Affine;
  cellAt(position: Position): CellPlace | null;
  positionAt(cell: CellPlace): Position | null;
}

/** A height in double precision and whether it is known. */
const BYTES_PER_CELL = 9;

/** Reads a window from the finest copy that keeps to a number of cells; where none does, means of the coarsest. */
export async function readWindow(
  placed: PlacedGrid,
  wanted: CellWindow,
  mostCells: number,
  signal?: AbortSignal,
): Promise<ReadWindow | null> {
  const fitting = levelWithin(placed.grid, wanted, mostCells * BYTES_PER_CELL);
  const level = fitting.ok ? fitting.value : coarsest(placed.grid, wanted);
  const times = Math.ceil(Math.sqrt((level.window.columns * level.window.rows) / mostCells));
  const block =
    times > 1 ? await meansOf(level.grid, level.window, times, signal) : await level.grid.read(level.window, signal);
  const lattice = level.grid === placed.grid ? placed : placedGrid(level.grid, placed.projection);
  const read = inOwnCells(lattice, level.window, { ...block, column: 0, row: 0 }, times);
  return read && { ...read, file: placed.grid.name, coarser: (placed.grid.columns / level.grid.columns) * times };
}

function coarsest(grid: ElevationGrid, wanted: CellWindow) {
  const copy = grid.overviews.at(-1);
  return copy ? { grid: copy, window: windowInCopy(wanted, grid, copy) } : { grid, window: wanted };
}

function inOwnCells(
  lattice: PlacedGrid,
  { column, row }: CellWindow,
  block: HeightBlock,
  times: number,
): Omit<ReadWindow, 'file' | 'coarser'> | null {
  const middle = { column: column + (block.columns * times) / 2, row: row + (block.rows * times) / 2 };
  const cell = cellOnGround(lattice, middle);
  if (!cell) return null;
  const { a, b, c, d, e, f } = lattice.grid.affine;
  return {
    block,
    affine: {
      a: a * times,
      b: b * times,
      c: a * column + b * row + c,
      d: d * times,
      e: e * times,
      f: d * column + e * row + f,
    },
    cell: {
      eastPerColumn: cell.eastPerColumn * times,
      northPerColumn: cell.northPerColumn * times,
      eastPerRow: cell.eastPerRow * times,
      northPerRow: cell.northPerRow * times,
    },
    cellAt(position) {
      const place = lattice.cellAt(position);
      return place && { column: (place.column - column) / times, row: (place.row - row) / times };
    },
    positionAt: (place) => lattice.positionAt({ column: place.column * times + column, row: place.row * times + row }),
  };
}
