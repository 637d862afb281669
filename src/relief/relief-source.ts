import type { CellWindow } from '../terrain/grid/grid.ts';
import type { PlacedGrid } from '../terrain/grid/placed-grid.ts';
import { BlockCache } from './block-cache.ts';
import { cellsPerMetre } from './cells-per-metre.ts';
import { type GridScale, gridScale } from './grid-scale.ts';
import { emptySamples, type GroundSamples } from './ground-samples.ts';
import { HeightPyramid, type PyramidLevel } from './height-pyramid.ts';
import { type Heights, heightBytes } from './heights.ts';
import { addSamples } from './sample-level.ts';
import type { TileAddress } from './tile-address.ts';
import { warpTile } from './tile-warp.ts';
import { type Lattice, type LatticeSpec, warpLattice } from './warp-lattice.ts';

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
