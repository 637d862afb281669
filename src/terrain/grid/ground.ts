import type { Position } from '../../geodesy/position.ts';
import type { Metres, Ratio } from '../../units/quantity.ts';
import type { TerrainNote } from './terrain-note.ts';

export type { TerrainNote };

/** A stretch of a line over which the DEM has no height, as indices of the first and last sample without one. */
export interface VoidSpan {
  readonly first: number;
  readonly last: number;
}

/**
 * The ground along a drawn line: samples at half a DEM cell or finer, with every drawn vertex among them.
 *
 * The arrays run side by side, one entry a sample. Where `known[i]` is 0 the DEM has no height and `ground[i]` is 0 and
 * means nothing; `voids` lists those stretches. No entry is ever NaN.
 */
export interface GroundLine {
  /** Horizontal distance from the start along the ellipsoid, m. */
  readonly at: Float64Array;
  readonly lon: Float64Array;
  readonly lat: Float64Array;
  /** Ground height in the DEM's own vertical datum, m. */
  readonly ground: Float64Array;
  readonly known: Uint8Array;
  /** For each drawn vertex, the index of its sample. */
  readonly vertices: Uint32Array;
  readonly voids: readonly VoidSpan[];
  /** Ellipsoidal length of the drawn line, m. */
  readonly horizontal: Metres;
  /** Length along the ground, m; voids count as straight between the heights on either side. */
  readonly slope: Metres;
  /** What makes its heights doubtful. */
  readonly doubt: LineDoubt;
  /** What the user should know about this line's heights (a seam between files, a line too long for every cell); absent when nothing. */
  readonly notes?: readonly TerrainNote[];
}

/** What makes the heights of a line doubtful, an entry a sample, as `GroundPoint` has it for a point. */
export interface LineDoubt {
  /** Slope of the ground, whichever way it falls, as rise over run. */
  readonly slope: Float32Array;
  readonly smoothing: Float32Array;
  /** Where a sample's file is of another accuracy class than the terrain: its class by the mark of the file; absent: nowhere. */
  readonly other?: { readonly mark: Uint16Array; readonly accuracy: ReadonlyMap<number, HeightAccuracy> };
}

/** The ground under one point. */
export interface GroundPoint {
  /** Bilinear height, m; null where the DEM has none. */
  readonly ground: Metres | null;
  /** Slope of the ground as rise over run, from the neighbouring cells; 0 where unknown. */
  readonly slope: Ratio;
  /**
   * How much the DEM's cell averaging lifts (+) or lowers (−) this height, m, estimated from the DEM's own curvature
   * (a lower bound). A note beside the height, never added to it.
   */
  readonly smoothing: Metres;
  /** Standard deviation of what cell averaging does to heights around there, m; left out where too little of the grid is known. */
  readonly averaging?: Metres;
  /** What is left of it once the likely amount is taken off, m, where it was. */
  readonly averagingSpread?: Metres;
  /** The file it came from, when the terrain has several: a difference across files is less sure than one within. */
  readonly file?: string;
  /** The spread of its height where that is not the terrain's: its file is of another accuracy class. */
  readonly accuracy?: HeightAccuracy;
}

/**
 * Spread of a DEM's heights: an error that fades within a cell or two (nugget), one that fades over nearRange, one over
 * farRange, and the placement of a point on its slope; `height-variogram.ts` has the formula. Constants are a calibration
 * of published accuracies, not published.
 */
export interface HeightAccuracy {
  /** Stable name, such as `lidar-1m-open`. */
  readonly id: string;
  readonly cell: Metres;
  readonly nugget: Metres;
  readonly near: Metres;
  readonly nearRange: Metres;
  readonly far: Metres;
  readonly farRange: Metres;
  /** Standard deviation of where a drawn point really is, per axis, m. */
  readonly placement: Metres;
  /**
   * How many times the smoothing that the DEM's own curvature shows its true smoothing may be, as a standard deviation;
   * absent: 2. The coarser the cells, the less of a valley's curve they show.
   */
  readonly smoothingDoubt?: Ratio;
  /** Step between stored heights when they are whole numbers, m; absent or 0 for floating point. */
  readonly quantum?: Metres;
  /** Whether the product shows bare ground or the top of trees and roofs. */
  readonly surface: 'ground' | 'surface' | 'unknown';
}

/** A DEM as the planner sees it: somewhere to ask for the ground. */
export interface Terrain {
  readonly about: TerrainAbout;
  groundAlong(line: readonly Position[], signal?: AbortSignal): Promise<GroundLine>;
  groundAt(positions: readonly Position[], signal?: AbortSignal): Promise<readonly GroundPoint[]>;
}

/** What is known of an opened DEM without reading its heights. */
export interface TerrainAbout {
  readonly files: readonly string[];
  readonly crs: string;
  /** Width and height of a cell on the ground near the middle, m. */
  readonly cell: { readonly width: Metres; readonly height: Metres };
  readonly size: { readonly columns: number; readonly rows: number };
  /** Corners of the area it covers, in order around it. */
  readonly outline: readonly Position[];
  readonly verticalUnit: 'metre' | 'foot' | 'US survey foot' | 'British foot 1936' | 'centimetre' | 'decimetre';
  readonly verticalDatum: string | null;
  readonly accuracy: HeightAccuracy;
  /** Things the user should know, as codes with data; words are the report's. */
  readonly notes: readonly TerrainNote[];
}
