import { type CellTrack, type SampledHeights, sampleBilinear } from './bilinear.ts';
import type { ElevationGrid } from './grid.ts';
import { ROUTE_WINDOW_CELLS, windowsAlong } from './windows-along.ts';

/** Heights of a line of samples in one grid, read window by window; entries already known are left alone. */
export async function sampleGrid(
  grid: ElevationGrid,
  track: CellTrack,
  out: SampledHeights,
  signal?: AbortSignal,
): Promise<void> {
  const limits = { margin: 0, mostCells: ROUTE_WINDOW_CELLS };
  for (const run of windowsAlong(track, grid, limits, (i) => out.known[i] === 0)) {
    signal?.throwIfAborted();
    const block = await grid.read(run.window, signal);
    sampleBilinear(block, grid, track, run, out);
  }
}
