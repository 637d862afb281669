import type { Position } from '../../geodesy/position.ts';
import { projectionOf } from '../../geodesy/projection.ts';
import type { Problem } from '../../units/outcome.ts';
import type { Metres } from '../../units/quantity.ts';
import { METRES_PER } from '../georeference/vertical-unit.ts';
import { cellOnGround, cellSize, type PlacedGrid, placedGrid } from '../grid/placed-grid.ts';
import type { HeightsRecord, OpenedGrid } from '../open/opened-grid.ts';
import { keysOf, writtenUnit } from './clip-elevation.ts';
import { keysForHeights } from './write-heights.ts';
import { type TileRaster, type TileValues, writeTiles } from './write-tiles.ts';

/** A file of heights on the lattice of another, of which only the tiles around a plan are there. */
export interface TakenHeights {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly record: HeightsRecord;
  /** Cells that are there, of how many. */
  readonly cells: number;
  readonly of: number;
}

export interface TakenAlong {
  readonly files: readonly TakenHeights[];
  /** How far around points and lines the ground goes, m; null where all of it is there. */
  readonly margin: Metres | null;
}

export type TakenOutcome =
  | { readonly ok: true; readonly value: TakenAlong }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export interface TakeWish {
  /** Lines around which the ground is wanted; a point is a line of one place. */
  readonly lines: readonly (readonly Position[])[];
  readonly mostBytes: number;
}

/** The widest is tried first. */
const MARGINS: readonly Metres[] = [5000, 2500, 1200, 600, 300, 150, 75, 40, 20, 10, 5, 2];
/** Cells along the side of a tile. */
const TILE = 128;
/** Whatever its size on the ground: slopes, smoothing and roughness look some cells around a place. */
const LEAST_CELLS = 24;
/** More cells are not packed at once: 100 MB of heights. */
const MOST_CELLS = 12_000_000;

/** So much more than there is room for is not packed to be sure of it. */
const SURELY = 1.3;

/**
 * The ground around a plan as files of their own: each on the same lattice as the file it is from, with the tiles around the
 * lines and the others left out, so that every answer inside is the same to the digit. The margin is the widest that keeps to
 * a number of bytes.
 */
export async function takeHeights(
  opened: readonly OpenedGrid[],
  wish: TakeWish,
  signal?: AbortSignal,
): Promise<TakenOutcome> {
  const layers = await Promise.all(opened.map(placedLayer));
  let bytesPerCell = 0;
  for (const margin of MARGINS) {
    const wanted = layers.map((placed) => tilesAround(placed, wish.lines, margin));
    const cells = wanted.reduce((sum, tiles) => sum + tiles.size * TILE * TILE, 0);
    if (cells > MOST_CELLS || cells * bytesPerCell > SURELY * wish.mostBytes) continue;
    const files: TakenHeights[] = [];
    for (const [k, placed] of layers.entries()) {
      signal?.throwIfAborted();
      const grid = opened[k];
      const tiles = wanted[k];
      if (grid === undefined || tiles === undefined) continue;
      const taken = await take(grid, tiles, signal);
      if (taken === null) return refused(placed.grid.name);
      files.push(taken);
    }
    const bytes = files.reduce((sum, file) => sum + file.bytes.length, 0);
    const whole = files.every((file) => file.cells === file.of);
    bytesPerCell = bytes / cells;
    if (bytes <= wish.mostBytes) return { ok: true, value: { files, margin: whole ? null : margin } };
  }
  const problem = { code: 'take-too-large', path: opened.map(({ name }) => name).join(' + ') };
  const found = `more than ${Math.round(wish.mostBytes / 1e6)} MB of heights around the plan's lines`;
  return { ok: false, problems: [{ ...problem, found, expected: 'a plan of fewer or shorter lines' }] };
}

function refused(path: string): TakenOutcome {
  const expected = 'a file with its CRS in GeoKeys';
  return { ok: false, problems: [{ code: 'clip-crs', path, found: 'a projection without a code', expected }] };
}

async function placedLayer(grid: OpenedGrid): Promise<PlacedGrid> {
  const projection = await projectionOf(grid.crs);
  if (!projection.ok)
    throw new Error(`${grid.name}: found a CRS that cannot be computed, expected that of an opened file`);
  return placedGrid(grid, projection.value);
}

/** Numbers of the tiles within a margin of lines. */
function tilesAround(placed: PlacedGrid, lines: TakeWish['lines'], margin: Metres): Set<number> {
  const { columns, rows } = placed.grid;
  const across = Math.ceil(columns / TILE);
  const tiles = new Set<number>();
  const add = (position: Position): void => {
    const cell = placed.cellAt(position);
    const onGround = cell && cellOnGround(placed, cell);
    if (!cell || !onGround) return;
    const { width, height } = cellSize(onGround);
    const reach = { column: Math.max(LEAST_CELLS, margin / width), row: Math.max(LEAST_CELLS, margin / height) };
    const left = Math.max(0, Math.floor((cell.column - reach.column) / TILE));
    const top = Math.max(0, Math.floor((cell.row - reach.row) / TILE));
    const right = Math.min(across - 1, Math.floor((cell.column + reach.column) / TILE));
    const bottom = Math.min(Math.ceil(rows / TILE) - 1, Math.floor((cell.row + reach.row) / TILE));
    for (let row = top; row <= bottom; row += 1) {
      for (let column = left; column <= right; column += 1) tiles.add(row * across + column);
    }
  };
  for (const line of lines) for (const position of steps(placed, line)) add(position);
  return tiles;
}

/** Places along a line no further apart than half the least margin in cells. */
function* steps(placed: PlacedGrid, line: readonly Position[]): Iterable<Position> {
  for (const [k, to] of line.entries()) {
    const from = line[k - 1] ?? to;
    const [one, other] = [placed.cellAt(from), placed.cellAt(to)];
    const far = one && other ? Math.hypot(other.column - one.column, other.row - one.row) : 0;
    const count = Math.max(1, Math.min(MOST_STEPS, Math.ceil((2 * far) / LEAST_CELLS)));
    for (let n = 1; n <= count; n += 1) {
      const share = n / count;
      yield { lon: from.lon + share * (to.lon - from.lon), lat: from.lat + share * (to.lat - from.lat) };
    }
  }
}

const MOST_STEPS = 100_000;

/** A stored height that was turned into metres and back may be off by this share. */
const ROUNDING = 4 * Number.EPSILON;
const USUAL_NO_DATA = -9999;
const MOST_WHOLE = 2 ** 31 - 1;

async function take(grid: OpenedGrid, wanted: ReadonlySet<number>, signal?: AbortSignal): Promise<TakenHeights | null> {
  const { facts } = grid;
  const keys = keysOf(grid, facts);
  if (keys === null) return null;
  const unit = writtenUnit(facts);
  const across = Math.ceil(grid.columns / TILE);
  const read: ReadTiles = { tiles: new Map(), holes: new Map(), single: true, whole: true, least: 0, cells: 0 };
  for (const index of wanted) {
    const window = windowOfTile(grid, index, across);
    const block = await grid.read(window, signal);
    layIn(read, index, { ...block, metres: METRES_PER[unit] });
  }
  // Below every height, so that no height is taken for none.
  const noData = read.least > USUAL_NO_DATA ? USUAL_NO_DATA : Math.floor(read.least) - 1;
  const form = read.whole ? 'int32' : read.single ? 'float32' : 'float64';
  const raster: TileRaster = {
    columns: grid.columns,
    rows: grid.rows,
    tile: TILE,
    affine: grid.affine,
    keys: keysForHeights(keys, unit),
    noData,
    form,
    tiles: new Map(
      [...read.tiles].map(([index, values]) => [index, asForm(values, read.holes.get(index), form, noData)]),
    ),
  };
  const { verticalUnit, unitEvidence, verticalDatum, notes } = facts;
  return {
    bytes: writeTiles(raster),
    record: { name: grid.name, quantum: grid.quantum, verticalUnit, unitEvidence, verticalDatum, notes },
    cells: read.cells,
    of: grid.columns * grid.rows,
  };
}

interface ReadTiles {
  readonly tiles: Map<number, Float64Array>;
  readonly holes: Map<number, Uint8Array>;
  /** Whether 32 bits say the same, and whether they are whole numbers. */
  single: boolean;
  whole: boolean;
  least: number;
  cells: number;
}

function windowOfTile(grid: OpenedGrid, index: number, across: number) {
  const column = (index % across) * TILE;
  const row = Math.floor(index / across) * TILE;
  return {
    column,
    row,
    columns: Math.min(TILE, grid.columns - column),
    rows: Math.min(TILE, grid.rows - row),
  };
}

/** The heights of a tile in the unit of its file; beyond the file's edge there are none. */
function layIn(
  read: ReadTiles,
  index: number,
  block: { columns: number; rows: number; heights: ArrayLike<number>; known: Uint8Array; metres: number },
): void {
  const values = new Float64Array(TILE * TILE);
  const holes = new Uint8Array(TILE * TILE).fill(1);
  for (let row = 0; row < block.rows; row += 1) {
    for (let column = 0; column < block.columns; column += 1) {
      const from = row * block.columns + column;
      if (block.known[from] === 0) continue;
      const at = row * TILE + column;
      const value = (block.heights[from] as number) / block.metres;
      const nearest = Math.round(value);
      const whole = Math.abs(nearest - value) <= ROUNDING * Math.abs(value);
      const kept = whole ? nearest : value;
      values[at] = kept;
      holes[at] = 0;
      if (!whole || Math.abs(nearest) > MOST_WHOLE) read.whole = false;
      if (Math.abs(Math.fround(kept) - kept) > ROUNDING * Math.abs(kept)) read.single = false;
      if (kept < read.least) read.least = kept;
    }
  }
  read.cells += block.columns * block.rows;
  read.tiles.set(index, values);
  read.holes.set(index, holes);
}

function asForm(
  values: Float64Array,
  holes: Uint8Array | undefined,
  form: TileRaster['form'],
  noData: number,
): TileValues {
  const out =
    form === 'int32'
      ? Int32Array.from(values)
      : form === 'float32'
        ? Float32Array.from(values)
        : Float64Array.from(values);
  for (let k = 0; k < out.length; k += 1) if (holes?.[k] === 1) out[k] = noData;
  return out;
}
