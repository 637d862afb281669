import type { Affine, CellWindow, CrsReference, ElevationGrid, HeightBlock } from '../../src/terrain/grid/grid.ts';

export interface MemoryGridOptions {
  readonly name?: string;
  readonly affine?: Affine;
  readonly crs?: CrsReference;
  readonly quantum?: number;
  readonly overviews?: readonly ElevationGrid[];
}

export interface MemoryGrid extends ElevationGrid {
  /** Windows that were read, in order. */
  readonly reads: CellWindow[];
}

/** Cells of a metre in the middle of UTM zone 31 north, so that a grid metre is 0.9996 m on the ground. */
export const METRE_CELLS: Affine = { a: 1, b: 0, c: 500000, d: 0, e: -1, f: 5200000 };

/** A grid whose heights are a function of column and row; a height of null is a void. Reads are recorded. */
export function gridOf(
  columns: number,
  rows: number,
  height: (column: number, row: number) => number | null,
  options: MemoryGridOptions = {},
): MemoryGrid {
  const reads: CellWindow[] = [];
  return {
    name: options.name ?? 'grid',
    columns,
    rows,
    affine: options.affine ?? METRE_CELLS,
    crs: options.crs ?? { kind: 'epsg', code: 32631 },
    overviews: options.overviews ?? [],
    quantum: options.quantum ?? 0,
    reads,
    async read(window, signal) {
      signal?.throwIfAborted();
      reads.push(window);
      return blockOf(window, { columns, rows }, height);
    },
  };
}

function blockOf(
  window: CellWindow,
  size: { readonly columns: number; readonly rows: number },
  height: (column: number, row: number) => number | null,
): HeightBlock {
  const { column, row, columns, rows } = window;
  if (column < 0 || row < 0 || column + columns > size.columns || row + rows > size.rows) {
    throw new Error(`window: found ${JSON.stringify(window)}, expected one inside ${size.columns} × ${size.rows}`);
  }
  const heights = new Float64Array(columns * rows);
  const known = new Uint8Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const z = height(column + c, row + r);
      heights[r * columns + c] = z ?? 0;
      known[r * columns + c] = z === null ? 0 : 1;
    }
  }
  return { ...window, heights, known };
}
