import type { ElevationGrid } from '../../src/terrain/grid/grid.ts';
import type { GridTerrain } from '../../src/terrain/ground/ground-window.ts';
import { terrainFromGrids } from '../../src/terrain/ground/open-terrain.ts';

/** A terrain of grids in memory, or a failed test. */
export async function terrainOfGrids(grids: readonly ElevationGrid[]): Promise<GridTerrain> {
  const sources = grids.map((grid) => ({
    file: grid.name,
    grid,
    verticalUnit: 'metre' as const,
    verticalDatum: null,
    notes: [],
  }));
  const terrain = await terrainFromGrids(sources, { accuracy: 'lidar-1m-open' });
  if (!terrain.ok) throw new Error(JSON.stringify(terrain.problems));
  return terrain.value;
}
