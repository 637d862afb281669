import type { ElevationGrid, HeightBlock } from './grid.ts';
import type { TerrainAbout, TerrainNote } from './ground.ts';
import { type MosaicBlock, membersOf } from './mosaic.ts';
import { type PlacedGrid, placedGrid } from './placed-grid.ts';

/** One file of a terrain, with the number that marks its samples; 0 marks none. */
export interface GridFile {
  readonly name: string;
  readonly mark: number;
  readonly placed: PlacedGrid;
}

/** The files behind grids, numbered from 1 in the order in which their grids are asked. */
export function filesOf(grids: readonly PlacedGrid[]): GridFile[] {
  const files = grids.flatMap(({ grid, projection }) => membersOf(grid).map((member) => ({ member, projection })));
  return files.map(({ member, projection }, k) => ({
    name: member.name,
    mark: k + 1,
    placed: placedGrid(member, projection),
  }));
}

/** How many files stand behind a grid. */
export const fileCount = (grid: ElevationGrid): number => membersOf(grid).length;

const hasSource = (block: HeightBlock): block is MosaicBlock => 'source' in block;

/** Which file of its grid the cell at a place of a block came from, counted from 1. */
export function fileInBlock(block: HeightBlock, column: number, row: number): number {
  if (!hasSource(block)) return 1;
  const c = Math.min(Math.max(Math.floor(column) - block.column, 0), block.columns - 1);
  const r = Math.min(Math.max(Math.floor(row) - block.row, 0), block.rows - 1);
  return Math.max(1, block.source[r * block.columns + c] ?? 1);
}

/** An opened file as a terrain is made of it: its grid, and what the file says about its heights. */
export interface TerrainSource extends Pick<TerrainAbout, 'verticalUnit' | 'verticalDatum'> {
  readonly file: string;
  readonly grid: ElevationGrid;
  readonly notes: readonly TerrainNote[];
}
