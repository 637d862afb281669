import type { HeightBlock } from '../grid/grid.ts';
import { type CellOnGround, cellOnGround, type PlacedGrid } from '../grid/placed-grid.ts';
import type { CellTrack, SampleRange } from './bilinear.ts';
import { smoothingAt } from './smoothing.ts';
import { gradientAt, slopeOf } from './surface-slope.ts';

/** Slope and smoothing by sample, as `GroundPoint` has them for a point. */
export interface SampledDoubt {
  readonly slope: Float32Array;
  readonly smoothing: Float32Array;
}

/**
 * Slope and smoothing of those samples of a stretch that `fresh` tells, from the block that gave their heights. A cell is as
 * large on the ground at every sample of a block, to what a slope is known by.
 */
export function sampleDoubt(
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
