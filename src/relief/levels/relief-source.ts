import type { Position } from '../../geodesy/position.ts';
import { DEGREE } from '../../geodesy/wgs84.ts';
import type { CellWindow } from '../../terrain/grid/grid.ts';
import type { PlacedGrid } from '../../terrain/grid/placed-grid.ts';
import type { Metres } from '../../units/quantity.ts';
import { BlockCache } from './block-cache.ts';
import { emptySamples, type GroundSamples, KNOWN, OUTSIDE, VOID } from './ground-samples.ts';
import { HeightPyramid, type PyramidLevel } from './height-pyramid.ts';
import { type Heights, heightBytes } from './heights.ts';
import { type Gradients, hornGradients } from './horn.ts';
import { placeInTile, tileGround } from './mercator.ts';
import type { TileAddress } from './tile-address.ts';
import { MARGIN, type TileWarp, warpTile } from './tile-warp.ts';
import { type Lattice, type LatticeSpec, warpLattice } from './warp-lattice.ts';

/** How large the cells of a grid are, near its middle. */
interface GridScale {
  readonly middle: Position;
  /** Side of a square as large as a cell on the ground, m. */
  readonly cell: Metres;
  /** Cells along the whole width of the Web Mercator world at the latitude of the middle. */
  readonly cellsPerTurn: number;
}

/** A step small enough to be straight and large enough for double precision, as a share of the world's width. */
const STEP = 1e-6;
const WORLD = { z: 0, x: 0, y: 0 };

/** Null for a grid whose middle has no place on the ellipsoid. */
function gridScale(placed: PlacedGrid): GridScale | null {
  const middle = placed.positionAt({ column: placed.grid.columns / 2, row: placed.grid.rows / 2 });
  if (!middle) return null;
  const u = middle.lon / 360 + 0.5;
  const v = 0.5 - Math.asinh(Math.tan(middle.lat * DEGREE)) / (2 * Math.PI);
  const here = placed.cellAt(placeInTile(WORLD, u, v));
  const east = placed.cellAt(placeInTile(WORLD, u + STEP, v));
  const south = placed.cellAt(placeInTile(WORLD, u, v + STEP));
  if (!here || !east || !south) return null;
  const area =
    (east.column - here.column) * (south.row - here.row) - (east.row - here.row) * (south.column - here.column);
  const cellsPerTurn = Math.sqrt(Math.abs(area)) / STEP;
  const ground = tileGround(0, middle.lat);
  return { middle, cellsPerTurn, cell: Math.sqrt(ground.east * ground.north) / cellsPerTurn };
}

interface Layer {
  readonly placed: PlacedGrid;
  readonly pyramid: HeightPyramid;
  readonly scale: GridScale;
}

/** Cells read around a tile for the neighbours of its outermost places. */
const SURROUND = 2;
const DEFAULT_BUDGET = 96 * 2 ** 20;

/** The ground as pictures see it: one or more grids, the finest known cell first, sampled in Web Mercator tiles. */
export class ReliefSource {
  readonly #layers: readonly Layer[];

  constructor(grids: readonly PlacedGrid[], budget: number = DEFAULT_BUDGET) {
    const cache = new BlockCache(budget, heightBytes);
    this.#layers = grids
      .flatMap((placed) => {
        const scale = gridScale(placed);
        return scale ? [{ placed, pyramid: new HeightPyramid(placed.grid, cache), scale }] : [];
      })
      .sort((one, other) => one.scale.cell - other.scale.cell);
  }

  get layers(): readonly { readonly pyramid: HeightPyramid; readonly scale: GridScale }[] {
    return this.#layers;
  }

  /** Ground at a lattice of places in a tile; null where nothing of the terrain can be drawn at this zoom. */
  async sample(tile: TileAddress, spec: LatticeSpec, signal?: AbortSignal): Promise<GroundSamples | null> {
    let samples: GroundSamples | null = null;
    for (const layer of this.#layers) {
      const level = layer.pyramid.level((layer.scale.cellsPerTurn * (spec.coarse ?? spec.step)) / 2 ** tile.z);
      const warp = level && warpTile(tile, layer.placed.cellAt);
      if (!level || !warp) continue;
      const lattice = warpLattice(warp, spec, layer.pyramid.cellsOf(level));
      const heights = await this.#readAround(layer, level, lattice, signal);
      if (!heights) continue;
      samples ??= emptySamples(spec.side);
      const turn = cellsPerMetre(tile, warp, layer.pyramid.cellsOf(level));
      addSamples(samples, { heights, lattice, turn, size: levelSize(layer, level) });
      if (samples.missing === 0) break;
    }
    return samples;
  }

  /** Whether a grid is so large, and without coarse enough copies, that nothing is drawn of it at this zoom and step. */
  tooFar(zoom: number, step: number): boolean {
    return this.#layers.some(({ pyramid, scale }) => pyramid.level((scale.cellsPerTurn * step) / 2 ** zoom) === null);
  }

  async #readAround(
    layer: Layer,
    level: PyramidLevel,
    lattice: Lattice,
    signal: AbortSignal | undefined,
  ): Promise<Heights | null> {
    const left = Math.max(-SURROUND, lattice.left - SURROUND);
    const top = Math.max(-SURROUND, lattice.top - SURROUND);
    const right = Math.min(level.columns + SURROUND, lattice.right + SURROUND);
    const bottom = Math.min(level.rows + SURROUND, lattice.bottom + SURROUND);
    if (left >= level.columns || top >= level.rows || right <= 0 || bottom <= 0) return null;
    const window: CellWindow = { column: left, row: top, columns: right - left, rows: bottom - top };
    return layer.pyramid.read(level, window, signal);
  }
}

function levelSize(layer: Layer, level: PyramidLevel): { columns: number; rows: number } {
  const scale = layer.pyramid.cellsOf(level);
  return { columns: layer.pyramid.grid.columns / scale, rows: layer.pyramid.grid.rows / scale };
}

interface LevelPart {
  readonly heights: Heights;
  readonly lattice: Lattice;
  readonly turn: CellsPerMetre;
  /** Columns and rows of the level, with the broken share of its last ones. */
  readonly size: { readonly columns: number; readonly rows: number };
}

/**
 * Fills the places that are not known yet from one level of one grid: heights and gradients bilinear between the middles
 * of cells, and those of the nearest cell beside a void.
 */
function addSamples(samples: GroundSamples, part: LevelPart): void {
  const gradients = hornGradients(part.heights);
  const { lattice, heights, size } = part;
  const left = lattice.left - heights.column;
  const top = lattice.top - heights.row;
  for (let at = 0; at < samples.state.length; at += 1) {
    if (samples.state[at] === KNOWN) continue;
    const x = (lattice.columns[at] ?? 0) + left;
    const y = (lattice.rows[at] ?? 0) + top;
    const column = x + heights.column;
    const row = y + heights.row;
    if (column < 0 || row < 0 || column > size.columns || row > size.rows) continue;
    if (samples.state[at] === OUTSIDE) samples.state[at] = VOID;
    writeSample(samples, at, part, gradients, x, y);
  }
}

/** Writes a place at (x, y) of the block unless the cell it lies in is not known. */
function writeSample(
  samples: GroundSamples,
  at: number,
  { heights, turn }: LevelPart,
  gradients: Gradients,
  x: number,
  y: number,
): void {
  const { columns, rows, known } = heights;
  const nearest = Math.min(rows - 1, Math.floor(y)) * columns + Math.min(columns - 1, Math.floor(x));
  if (known[nearest] !== 1) return;
  const left = Math.floor(x - 0.5);
  const top = Math.floor(y - 0.5);
  const whole = allKnown(heights, left, top);
  // Beside a void the nearest cell stands for all four.
  const first = whole ? top * columns + left : nearest;
  const right = whole ? 1 : 0;
  const below = whole ? columns : 0;
  const s = x - 0.5 - left;
  const t = y - 0.5 - top;
  const across = mean(gradients.across, first, right, below, s, t);
  const down = mean(gradients.down, first, right, below, s, t);
  samples.heights[at] = mean(heights.heights, first, right, below, s, t);
  samples.east[at] = across * turn.columnEast + down * turn.rowEast;
  samples.north[at] = across * turn.columnNorth + down * turn.rowNorth;
  samples.state[at] = KNOWN;
  samples.missing -= 1;
}

/** Whether the four cells are there and known whose middles lie around a place. */
function allKnown({ known, columns, rows }: Heights, left: number, top: number): boolean {
  if (left < 0 || top < 0 || left + 1 >= columns || top + 1 >= rows) return false;
  const first = top * columns + left;
  return (
    (known[first] ?? 0) +
      (known[first + 1] ?? 0) +
      (known[first + columns] ?? 0) +
      (known[first + columns + 1] ?? 0) ===
    4
  );
}

function mean(values: Float32Array, first: number, right: number, below: number, s: number, t: number): number {
  const a = values[first] ?? 0;
  const b = values[first + right] ?? 0;
  const c = values[first + below] ?? 0;
  const d = values[first + below + right] ?? 0;
  const upper = a + (b - a) * s;
  return upper + (c + (d - c) * s - upper) * t;
}

/** How many columns and rows of a level one metre towards east and towards north is. */
interface CellsPerMetre {
  readonly columnEast: number;
  readonly rowEast: number;
  readonly columnNorth: number;
  readonly rowNorth: number;
}

/** The mean turn and stretch between ground metres and the cells of a level over a tile; `scale` grid cells a level cell. */
function cellsPerMetre(tile: TileAddress, warp: TileWarp, scale: number): CellsPerMetre {
  const ground = tileGround(tile.z, placeInTile(tile, 0.5, 0.5).lat);
  const east = ground.east * (1 + 2 * MARGIN) * scale;
  const north = ground.north * (1 + 2 * MARGIN) * scale;
  return {
    columnEast: acrossTile(warp.columns, warp.mesh) / east,
    rowEast: acrossTile(warp.rows, warp.mesh) / east,
    columnNorth: -downTile(warp.columns, warp.mesh) / north,
    rowNorth: -downTile(warp.rows, warp.mesh) / north,
  };
}

function corner(values: Float64Array, mesh: number, i: 0 | 1, j: 0 | 1): number {
  return values[j * mesh * (mesh + 1) + i * mesh] ?? 0;
}

function acrossTile(values: Float64Array, mesh: number): number {
  return (
    (corner(values, mesh, 1, 0) -
      corner(values, mesh, 0, 0) +
      corner(values, mesh, 1, 1) -
      corner(values, mesh, 0, 1)) /
    2
  );
}

function downTile(values: Float64Array, mesh: number): number {
  return (
    (corner(values, mesh, 0, 1) -
      corner(values, mesh, 0, 0) +
      corner(values, mesh, 1, 1) -
      corner(values, mesh, 1, 0)) /
    2
  );
}
