import type { GridFlaw, HeightBlock } from '../grid/grid.ts';
import { fileInBlock } from '../grid/grid-files.ts';
import { type CellOnGround, cellOnGround, type PlacedGrid } from '../grid/placed-grid.ts';
import { type CellTrack, type SampledHeights, type SampleRange, sampleBilinear } from './bilinear.ts';
import { smoothingAt } from './smoothing.ts';
import { gradientAt, slopeOf } from './surface-slope.ts';
import { ROUTE_WINDOW_CELLS, windowsAlong } from './windows-along.ts';

/** Which file each sample came from: `marks[i]` is 0 where unknown; `before` is the mark before the grid's first file. */
export interface FileMarks {
  readonly marks: Uint16Array;
  readonly before: number;
}

/** Heights of a line of samples in one grid with their doubt, read window by window; entries already known are left alone. Answers what made holes. */
export async function sampleGrid(
  placed: PlacedGrid,
  track: CellTrack,
  out: SampledHeights & SampledDoubt,
  files: FileMarks,
  signal?: AbortSignal,
): Promise<readonly GridFlaw[]> {
  const flaws: GridFlaw[] = [];
  const { grid } = placed;
  const limits = { margin: 1, mostCells: ROUTE_WINDOW_CELLS };
  for (const run of windowsAlong(track, grid, limits, (i) => out.known[i] === 0)) {
    signal?.throwIfAborted();
    const block = await grid.read(run.window, signal);
    sampleBilinear(block, grid, track, run, out);
    const fresh = (i: number): boolean => out.known[i] === 1 && files.marks[i] === 0;
    sampleDoubt({ block, placed, track }, run, fresh, out);
    markFiles(block, track, run, out.known, files);
    flaws.push(...(block.flaws ?? []));
  }
  return flaws;
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

/** Slope and smoothing by sample, as `GroundPoint` has them for a point. */
interface SampledDoubt {
  readonly slope: Float32Array;
  readonly smoothing: Float32Array;
}

/**
 * Slope and smoothing of those samples of a stretch that `fresh` tells, from the block that gave their heights. A cell is as
 * large on the ground at every sample of a block, to what a slope is known by.
 */
function sampleDoubt(
  from: { readonly block: HeightBlock; readonly placed: PlacedGrid; readonly track: CellTrack },
  range: SampleRange,
  fresh: (sample: number) => boolean,
  out: SampledDoubt,
): void {
  const { block, placed, track } = from;
  let onGround: CellOnGround | null = null;
  for (let i = range.first; i <= range.last; i++) {
    if (!fresh(i)) continue;
    const cell = { column: track.column[i] as number, row: track.row[i] as number };
    onGround ??= cellOnGround(placed, cell);
    out.slope[i] = onGround ? slopeOf(gradientAt(block, cell), onGround) : 0;
    out.smoothing[i] = smoothingAt(block, cell);
  }
}
