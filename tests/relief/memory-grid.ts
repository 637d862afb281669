import type { Affine, CellWindow, ElevationGrid, HeightBlock } from '../../src/terrain/grid/grid.ts';

export interface MemoryGridSpec {
  readonly columns: number;
  readonly rows: number;
  readonly affine: Affine;
  readonly epsg: number;
  /** Height at a cell, or null for a void. */
  readonly height: (column: number, row: number) => number | null;
  readonly overviews?: readonly ElevationGrid[];
}

/** A grid whose heights are a function of the cell. */
export function memoryGrid(spec: MemoryGridSpec): ElevationGrid & { readonly reads: CellWindow[] } {
  const reads: CellWindow[] = [];
  return {
    name: 'memory',
    columns: spec.columns,
    rows: spec.rows,
    affine: spec.affine,
    crs: { kind: 'epsg', code: spec.epsg },
    overviews: spec.overviews ?? [],
    quantum: 0,
    reads,
    read(window): Promise<HeightBlock> {
      reads.push(window);
      const heights = new Float64Array(window.columns * window.rows);
      const known = new Uint8Array(heights.length);
      for (let at = 0; at < heights.length; at += 1) {
        const column = window.column + (at % window.columns);
        const row = window.row + Math.floor(at / window.columns);
        const height = column < spec.columns && row < spec.rows ? spec.height(column, row) : null;
        heights[at] = height ?? 0;
        known[at] = height === null ? 0 : 1;
      }
      return Promise.resolve({ ...window, heights, known });
    },
  };
}
