import type { CrsReference } from '../../geodesy/wgs84.ts';
import type { Affine, CellWindow, ElevationGrid, GridFlaw, HeightBlock } from './grid.ts';

/** Heights with the file each came from: the index in `members` plus one, 0 where unknown. */
export interface MosaicBlock extends HeightBlock {
  readonly source: Uint16Array;
}

/** Neighbouring or overlapping files on one lattice of cells, read as one grid; where several know a cell the first wins. */
export interface MosaicGrid extends ElevationGrid {
  readonly members: readonly ElevationGrid[];
  read(window: CellWindow, signal?: AbortSignal): Promise<MosaicBlock>;
}

const isMosaic = (grid: ElevationGrid): grid is MosaicGrid => 'members' in grid;

/** The grids a grid was joined from; itself when it was not. */
export const membersOf = (grid: ElevationGrid): readonly ElevationGrid[] => (isMosaic(grid) ? grid.members : [grid]);

/** Files whose cells lie on one lattice to this share of a cell are read as one grid. */
const LATTICE_TOLERANCE = 1e-3;

/** Joins grids that share a CRS and a lattice of cells; the others stay as they are. Order is kept within a group. */
export function joinLattices(grids: readonly ElevationGrid[]): ElevationGrid[] {
  const groups: ElevationGrid[][] = [];
  for (const grid of grids) {
    const group = groups.find(([first]) => first !== undefined && onLattice(first, grid) !== null);
    if (group) group.push(grid);
    else groups.push([grid]);
  }
  return groups.flatMap((group) => (group.length === 1 ? group : [mosaicOf(group)]));
}

interface Shift {
  readonly column: number;
  readonly row: number;
}

/** Whole cells from the first grid's corner to another's; null where they share no lattice. */
function onLattice(first: ElevationGrid, grid: ElevationGrid): Shift | null {
  if (!sameCrs(first.crs, grid.crs) || !sameSteps(first, grid)) return null;
  const { a, b, c, d, e, f } = first.affine;
  const determinant = a * e - b * d;
  const dx = grid.affine.c - c;
  const dy = grid.affine.f - f;
  const column = (e * dx - b * dy) / determinant;
  const row = (a * dy - d * dx) / determinant;
  const whole = { column: Math.round(column), row: Math.round(row) };
  const off = Math.max(Math.abs(column - whole.column), Math.abs(row - whole.row));
  return off <= LATTICE_TOLERANCE ? whole : null;
}

const sameCrs = (a: CrsReference, b: CrsReference): boolean =>
  a.kind === 'epsg' ? b.kind === 'epsg' && a.code === b.code : b.kind === 'proj' && a.definition === b.definition;

/** Steps that differ by less than the tolerance over the whole of either grid. */
function sameSteps(first: ElevationGrid, grid: ElevationGrid): boolean {
  const across = Math.max(first.columns, first.rows, grid.columns, grid.rows);
  const size = Math.max(Math.abs(first.affine.a), Math.abs(first.affine.b));
  const keys = ['a', 'b', 'd', 'e'] as const satisfies readonly (keyof Affine)[];
  return keys.every((k) => Math.abs(first.affine[k] - grid.affine[k]) * across <= LATTICE_TOLERANCE * size);
}

interface Member {
  readonly grid: ElevationGrid;
  /** Its first cell in the mosaic. */
  readonly at: Shift;
}

function mosaicOf(grids: readonly ElevationGrid[]): MosaicGrid {
  const [first] = grids;
  if (!first) throw new Error('files of a mosaic: found none, expected one or more');
  const shifts = grids.map((grid) => onLattice(first, grid) ?? { column: 0, row: 0 });
  const left = Math.min(...shifts.map((s) => s.column));
  const top = Math.min(...shifts.map((s) => s.row));
  const members = grids.map((grid, k): Member => {
    const shift = shifts[k] ?? { column: 0, row: 0 };
    return { grid, at: { column: shift.column - left, row: shift.row - top } };
  });
  const { a, b, c, d, e, f } = first.affine;
  return {
    name: grids.map((g) => g.name).join(' + '),
    columns: Math.max(...members.map((m) => m.at.column + m.grid.columns)),
    rows: Math.max(...members.map((m) => m.at.row + m.grid.rows)),
    affine: { a, b, c: c + a * left + b * top, d, e, f: f + d * left + e * top },
    crs: first.crs,
    overviews: coarserCopies(grids),
    quantum: Math.max(...grids.map((g) => g.quantum)),
    members: grids,
    flaws: () => grids.flatMap((grid) => grid.flaws?.() ?? []),
    read: (window, signal) => readMembers(members, window, signal),
  };
}

/** Coarser copies as long as every file has one and they too share a lattice. */
function coarserCopies(grids: readonly ElevationGrid[]): ElevationGrid[] {
  const copies: ElevationGrid[] = [];
  for (let level = 0; ; level++) {
    const each = grids.flatMap((g) => g.overviews[level] ?? []);
    if (each.length < grids.length) return copies;
    const joined = joinLattices(each);
    const [whole] = joined;
    if (joined.length !== 1 || !whole) return copies;
    copies.push(whole);
  }
}

async function readMembers(
  members: readonly Member[],
  window: CellWindow,
  signal: AbortSignal | undefined,
): Promise<MosaicBlock> {
  const cells = window.columns * window.rows;
  const whole: MosaicBlock = {
    ...window,
    heights: new Float64Array(cells),
    known: new Uint8Array(cells),
    source: new Uint16Array(cells),
  };
  const flaws: GridFlaw[] = [];
  for (const [k, { grid, at }] of members.entries()) {
    const part = partOf(window, grid, at);
    if (!part) continue;
    const block = await grid.read(part, signal);
    flaws.push(...(block.flaws ?? []));
    layInto(whole, block, at, k + 1);
  }
  return flaws.length > 0 ? { ...whole, flaws } : whole;
}

/** The part of a window that lies in a member, in the member's own cells. */
function partOf(window: CellWindow, grid: ElevationGrid, at: Shift): CellWindow | null {
  const left = Math.max(0, window.column - at.column);
  const top = Math.max(0, window.row - at.row);
  const right = Math.min(grid.columns, window.column + window.columns - at.column);
  const bottom = Math.min(grid.rows, window.row + window.rows - at.row);
  if (right <= left || bottom <= top) return null;
  return { column: left, row: top, columns: right - left, rows: bottom - top };
}

function layInto(whole: MosaicBlock, block: HeightBlock, at: Shift, source: number): void {
  const { heights, known } = whole;
  for (let r = 0; r < block.rows; r++) {
    let to = (block.row + r + at.row - whole.row) * whole.columns + block.column + at.column - whole.column;
    let from = r * block.columns;
    for (let c = 0; c < block.columns; c++, to++, from++) {
      if (known[to] === 1 || block.known[from] === 0) continue;
      heights[to] = block.heights[from] as number;
      known[to] = 1;
      whole.source[to] = source;
    }
  }
}
