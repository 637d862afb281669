import type { Position } from '../../geodesy/position.ts';
import type { HeightBlock } from '../grid/grid.ts';
import { fileCount, fileInBlock, filesOf, type GridFile } from '../grid/grid-files.ts';
import type { GroundPoint } from '../grid/ground.ts';
import { type CellPlace, cellOnGround, type PlacedGrid } from '../grid/placed-grid.ts';
import { type CellTrack, sampleBilinear } from './bilinear.ts';
import { NOWHERE } from './route-samples.ts';
import { smoothingAt } from './smoothing.ts';
import { gradientAt, slopeOf } from './surface-slope.ts';
import { ROUTE_WINDOW_CELLS, windowsAlong } from './windows-along.ts';

const UNKNOWN: GroundPoint = { ground: null, slope: 0, smoothing: 0 };

/** The ground under points, from the first grid that has a height there. */
export async function groundAt(
  grids: readonly PlacedGrid[],
  positions: readonly Position[],
  signal?: AbortSignal,
): Promise<readonly GroundPoint[]> {
  const found: GroundPoint[] = positions.map(() => UNKNOWN);
  const files = grids.length === 1 && grids[0] && fileCount(grids[0].grid) === 1 ? [] : filesOf(grids);
  let before = 0;
  for (const placed of grids) {
    const track = trackOf(placed, positions);
    const limits = { margin: 1, mostCells: ROUTE_WINDOW_CELLS };
    const runs = windowsAlong(track, placed.grid, limits, (i) => found[i]?.ground === null);
    for (const run of runs) {
      signal?.throwIfAborted();
      const block = await placed.grid.read(run.window, signal);
      for (let i = run.first; i <= run.last; i++) {
        if (found[i]?.ground !== null) continue;
        const point = groundIn(block, placed, track, i);
        found[i] = point.ground === null ? UNKNOWN : { ...point, ...fileOf(files, block, track, i, before) };
      }
    }
    before += fileCount(placed.grid);
  }
  return found;
}

/** The file a point's height came from; nothing when the terrain has but one. */
function fileOf(
  files: readonly GridFile[],
  block: HeightBlock,
  track: CellTrack,
  i: number,
  before: number,
): Pick<GroundPoint, 'file'> {
  if (files.length === 0) return {};
  const mark = before + fileInBlock(block, track.column[i] as number, track.row[i] as number);
  const file = files.find((f) => f.mark === mark);
  return file ? { file: file.name } : {};
}

function trackOf(placed: PlacedGrid, positions: readonly Position[]): CellTrack {
  const cells = positions.map((p) => placed.cellAt(p));
  return {
    column: Float64Array.from(cells, (c) => c?.column ?? NOWHERE),
    row: Float64Array.from(cells, (c) => c?.row ?? NOWHERE),
  };
}

function groundIn(block: HeightBlock, placed: PlacedGrid, track: CellTrack, i: number): GroundPoint {
  const out = { height: new Float64Array(1), known: new Uint8Array(1) };
  const own = { column: track.column.subarray(i, i + 1), row: track.row.subarray(i, i + 1) };
  sampleBilinear(block, placed.grid, own, { first: 0, last: 0 }, out);
  if (out.known[0] === 0) return UNKNOWN;
  const cell: CellPlace = { column: track.column[i] as number, row: track.row[i] as number };
  const onGround = cellOnGround(placed, cell);
  return {
    ground: out.height[0] as number,
    slope: onGround ? slopeOf(gradientAt(block, cell), onGround) : 0,
    smoothing: smoothingAt(block, cell),
  };
}
