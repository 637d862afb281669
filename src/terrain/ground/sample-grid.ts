import type { HeightBlock } from '../grid/grid.ts';
import { fileInBlock } from '../grid/grid-files.ts';
import type { PlacedGrid } from '../grid/placed-grid.ts';
import { type CellTrack, type SampledHeights, type SampleRange, sampleBilinear } from './bilinear.ts';
import { type SampledDoubt, sampleDoubt } from './line-doubt.ts';
import { ROUTE_WINDOW_CELLS, windowsAlong } from './windows-along.ts';

/** Which file each sample came from: `marks[i]` is 0 where unknown; `before` is the mark before the grid's first file. */
export interface FileMarks {
  readonly marks: Uint16Array;
  readonly before: number;
}

/** Heights of a line of samples in one grid with their doubt, read window by window; entries already known are left alone. */
export async function sampleGrid(
  placed: PlacedGrid,
  track: CellTrack,
  out: SampledHeights & SampledDoubt,
  files: FileMarks,
  signal?: AbortSignal,
): Promise<void> {
  const { grid } = placed;
  const limits = { margin: 1, mostCells: ROUTE_WINDOW_CELLS };
  for (const run of windowsAlong(track, grid, limits, (i) => out.known[i] === 0)) {
    signal?.throwIfAborted();
    const block = await grid.read(run.window, signal);
    sampleBilinear(block, grid, track, run, out);
    const fresh = (i: number): boolean => out.known[i] === 1 && files.marks[i] === 0;
    sampleDoubt({ block, placed, track }, run, fresh, out);
    markFiles(block, track, run, out.known, files);
  }
}

function markFiles(
  block: HeightBlock,
  { column, row }: CellTrack,
  { first, last }: SampleRange,
  known: Uint8Array,
  { marks, before }: FileMarks,
): void {
  for (let i = first; i <= last; i++) {
    if (known[i] === 0 || marks[i] !== 0) continue;
    marks[i] = before + fileInBlock(block, column[i] as number, row[i] as number);
  }
}
