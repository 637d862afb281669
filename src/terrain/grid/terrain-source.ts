import type { ElevationGrid } from './grid.ts';
import type { TerrainAbout, TerrainNote } from './ground.ts';

/** An opened file as a terrain is made of it: its grid, and what the file says about its heights. */
export interface TerrainSource extends Pick<TerrainAbout, 'verticalUnit' | 'verticalDatum'> {
  readonly file: string;
  readonly grid: ElevationGrid;
  readonly notes: readonly TerrainNote[];
}
