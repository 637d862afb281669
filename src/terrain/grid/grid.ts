import type { CrsReference } from '../../geodesy/wgs84.ts';
import type { Metres } from '../../units/quantity.ts';

export type { CrsReference };

/** A rectangle of cells: left column, top row, and how many of each. */
export interface CellWindow {
  readonly column: number;
  readonly row: number;
  readonly columns: number;
  readonly rows: number;
}

/** What a file holds of which no height can be made, and which is a hole for that. */
export interface GridFlaw {
  readonly code: 'odd-heights' | 'broken-blocks';
  readonly file: string;
  readonly count: number;
  /** The first of them, such as `99999 at column 3, row 4` or `tile 7: a stream that stops early`. */
  readonly first: string;
}

/** Heights of a window, row by row from the top, in metres. Where `known` is 0 the height is 0 and means nothing. */
export interface HeightBlock extends CellWindow {
  readonly heights: Float64Array | Float32Array;
  readonly known: Uint8Array;
  /** What made holes in this window; absent: nothing. */
  readonly flaws?: readonly GridFlaw[];
}

/**
 * From cell coordinates to the coordinates of the CRS, corners of cells at whole numbers (PixelIsArea):
 * x = a·column + b·row + c, y = d·column + e·row + f. The middle of the first cell is at (0.5, 0.5).
 */
export interface Affine {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

/** An elevation grid in its own CRS: something that reads windows of heights. Heights leave it in metres. */
export interface ElevationGrid {
  readonly name: string;
  readonly columns: number;
  readonly rows: number;
  readonly affine: Affine;
  readonly crs: CrsReference;
  /** Coarser copies of the same area, finest first; empty when there are none. */
  readonly overviews: readonly ElevationGrid[];
  /** Step between stored heights when they are whole numbers, m; 0 for floating point. */
  readonly quantum: Metres;
  read(window: CellWindow, signal?: AbortSignal): Promise<HeightBlock>;
  /** What has made holes in all that was read so far; absent where nothing can. */
  flaws?(): readonly GridFlaw[];
}
