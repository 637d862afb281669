import type { Position } from '../../geodesy/position.ts';
import type { HeightBlock } from '../grid/grid.ts';
import { fileCount, fileInBlock, filesOf, type GridFile } from '../grid/grid-files.ts';
import type { GroundPoint } from '../grid/ground.ts';
import { type CellOnGround, cellOnGround, type PlacedGrid } from '../grid/placed-grid.ts';
import { type CellTrack, sampleBilinear } from './bilinear.ts';
import { averagingErrorAt, ROUGHNESS_MARGIN } from './roughness.ts';
import { NOWHERE } from './route-samples.ts';
import { smoothingAt } from './smoothing.ts';
import { gradientAt, slopeOf } from './surface-slope.ts';
import { ROUTE_WINDOW_CELLS, windowsAlong } from './windows-along.ts';

const UNKNOWN: GroundPoint = { ground: null, slope: 0, smoothing: 0 };

/** Points in one square of so many cells are read together, whatever order they come in. */
const SQUARE = 256;

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
    const { order, track } = orderedTrack(placed, positions, found);
    const limits = { margin: ROUGHNESS_MARGIN, mostCells: ROUTE_WINDOW_CELLS };
    for (const run of windowsAlong(track, placed.grid, limits, () => true)) {
      signal?.throwIfAborted();
      const block = await placed.grid.read(run.window, signal);
      const count = run.last - run.first + 1;
      const own = {
        column: track.column.subarray(run.first, run.last + 1),
        row: track.row.subarray(run.first, run.last + 1),
      };
      const out = { height: new Float64Array(count), known: new Uint8Array(count) };
      sampleBilinear(block, placed.grid, own, { first: 0, last: count - 1 }, out);
      const doubtOf = doubtsIn(block, placed);
      for (let k = 0; k < count; k++) {
        if (out.known[k] === 0) continue;
        const cell = { column: own.column[k] as number, row: own.row[k] as number };
        const ground = out.height[k] as number;
        const point = { ground, ...doubtOf(cell) };
        found[order[run.first + k] as number] =
          files.length === 0 ? point : { ...point, ...fileOf(files, block, own, k, before) };
      }
    }
    before += fileCount(placed.grid);
  }
  return found;
}

/** Slope and smoothing in one block. A cell is as large on the ground all over it, to what a slope is known by. */
function doubtsIn(
  block: HeightBlock,
  placed: PlacedGrid,
): (cell: { column: number; row: number }) => Omit<GroundPoint, 'ground'> {
  let onGround: CellOnGround | null = null;
  return (cell) => {
    onGround ??= cellOnGround(placed, cell);
    const slope = onGround ? slopeOf(gradientAt(block, cell), onGround) : 0;
    const smoothing = smoothingAt(block, cell);
    const averaging = averagingErrorAt(block, cell);
    return averaging === null ? { slope, smoothing } : { slope, smoothing, averaging };
  };
}

/** The file a point's height came from; nothing when the terrain has but one. */
function fileOf(
  files: readonly GridFile[],
  block: HeightBlock,
  track: CellTrack,
  i: number,
  before: number,
): Pick<GroundPoint, 'file'> {
  const mark = before + fileInBlock(block, track.column[i] as number, track.row[i] as number);
  const file = files.find((f) => f.mark === mark);
  return file ? { file: file.name } : {};
}

/** The places without a height yet, square by square, so that neighbours are read at once. */
function orderedTrack(
  placed: PlacedGrid,
  positions: readonly Position[],
  found: readonly GroundPoint[],
): { order: Uint32Array; track: CellTrack } {
  const { columns } = placed.grid;
  const across = Math.ceil(columns / SQUARE) + 1;
  const squares = new Map<number, number[]>();
  const column = new Float64Array(positions.length).fill(NOWHERE);
  const row = new Float64Array(positions.length).fill(NOWHERE);
  for (const [i, position] of positions.entries()) {
    if (found[i]?.ground !== null) continue;
    const cell = placed.cellAt(position);
    if (!cell) continue;
    column[i] = cell.column;
    row[i] = cell.row;
    const square = Math.floor(cell.row / SQUARE) * across + Math.floor(cell.column / SQUARE);
    const list = squares.get(square);
    if (list) list.push(i);
    else squares.set(square, [i]);
  }
  const order = Uint32Array.from([...squares.values()].flat());
  return {
    order,
    track: {
      column: Float64Array.from(order, (i) => column[i] as number),
      row: Float64Array.from(order, (i) => row[i] as number),
    },
  };
}
