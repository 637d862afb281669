import type { Metres } from '../../units/quantity.ts';
import type { Affine, CellWindow, CrsReference, ElevationGrid, HeightBlock } from './grid.ts';

export interface MemoryGridParts {
  readonly name: string;
  readonly columns: number;
  readonly rows: number;
  readonly affine: Affine;
  readonly crs: CrsReference;
  readonly quantum: Metres;
  readonly heights: Float64Array;
  readonly known: Uint8Array;
}

/** An elevation grid held in memory as a whole. */
export class MemoryGrid implements ElevationGrid {
  readonly name: string;
  readonly columns: number;
  readonly rows: number;
  readonly affine: Affine;
  readonly crs: CrsReference;
  readonly overviews: readonly ElevationGrid[] = [];
  readonly quantum: Metres;
  readonly #heights: Float64Array;
  readonly #known: Uint8Array;

  constructor(parts: MemoryGridParts) {
    this.name = parts.name;
    this.columns = parts.columns;
    this.rows = parts.rows;
    this.affine = parts.affine;
    this.crs = parts.crs;
    this.quantum = parts.quantum;
    this.#heights = parts.heights;
    this.#known = parts.known;
  }

  async read({ column, row, columns, rows }: CellWindow, signal?: AbortSignal): Promise<HeightBlock> {
    signal?.throwIfAborted();
    const heights = new Float64Array(columns * rows);
    const known = new Uint8Array(columns * rows);
    const left = Math.max(0, column);
    const right = Math.min(this.columns, column + columns);
    if (right > left) {
      for (let y = Math.max(0, row); y < Math.min(this.rows, row + rows); y++) {
        const from = y * this.columns + left;
        const to = (y - row) * columns + left - column;
        heights.set(this.#heights.subarray(from, from + right - left), to);
        known.set(this.#known.subarray(from, from + right - left), to);
      }
    }
    return { column, row, columns, rows, heights, known };
  }
}
