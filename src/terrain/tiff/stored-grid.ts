import type { Metres } from '../../units/quantity.ts';
import { FileRefusal, refusalInFile, refuse } from '../bytes/file-refusal.ts';
import type { Affine, CellWindow, CrsReference, ElevationGrid, HeightBlock } from '../grid/grid.ts';
import type { BlockStore } from './block-store.ts';
import { blocksUnder, sharedRuns } from './blocks-under.ts';
import { type HeightRule, isPlausible, PLAUSIBLE, rawOf } from './heights-from-samples.ts';
import type { VoidMask } from './void-mask.ts';

export interface StoredGridParts {
  readonly name: string;
  readonly columns: number;
  readonly rows: number;
  readonly affine: Affine;
  readonly crs: CrsReference;
  readonly overviews: readonly ElevationGrid[];
  readonly quantum: Metres;
  readonly store: BlockStore;
  readonly rule: HeightRule;
  readonly mask: VoidMask | null;
  /** Whether heights need 64 bits to be exact. */
  readonly wide: boolean;
  readonly mostCells: number;
}

/** An elevation grid that lies in blocks in a file: a window reads the blocks that it touches and no others. */
export class StoredGrid implements ElevationGrid {
  readonly name: string;
  readonly columns: number;
  readonly rows: number;
  readonly affine: Affine;
  readonly crs: CrsReference;
  readonly overviews: readonly ElevationGrid[];
  readonly quantum: Metres;
  readonly #parts: StoredGridParts;

  constructor(parts: StoredGridParts) {
    this.name = parts.name;
    this.columns = parts.columns;
    this.rows = parts.rows;
    this.affine = parts.affine;
    this.crs = parts.crs;
    this.overviews = parts.overviews;
    this.quantum = parts.quantum;
    this.#parts = parts;
  }

  /** Heights of a window; cells outside the grid are unknown. Rejects with a `FileRefusal` where the file is broken. */
  async read(window: CellWindow, signal?: AbortSignal): Promise<HeightBlock> {
    try {
      return await this.#read(window, signal);
    } catch (error) {
      if (error instanceof FileRefusal) throw refusalInFile(this.name, error);
      throw error;
    }
  }

  async #read(window: CellWindow, signal?: AbortSignal): Promise<HeightBlock> {
    this.#checkWindow(window);
    const { store, mask, wide } = this.#parts;
    const cells = window.columns * window.rows;
    const heights = wide ? new Float64Array(cells) : new Float32Array(cells);
    const known = new Uint8Array(cells);
    await store.each(
      blocksUnder(window, store.places, this),
      (index, block) => {
        if (block === null) return;
        sharedRuns(index, store.places, window, this, (from, to, length) => {
          heights.set(block.heights.subarray(from, from + length), to);
          known.set(block.known.subarray(from, from + length), to);
        });
      },
      signal,
    );
    if (mask !== null) keepOnly(await mask.kept(window, signal), heights, known);
    const { column, row, columns, rows } = window;
    const block: HeightBlock = { column, row, columns, rows, heights, known };
    this.#checkHeights(block);
    return block;
  }

  #checkWindow({ column, row, columns, rows }: CellWindow): void {
    if (![column, row, columns, rows].every(Number.isSafeInteger) || columns < 1 || rows < 1) {
      throw new RangeError(`window of whole cells expected, found ${columns} × ${rows} at ${column}, ${row}`);
    }
    if (columns * rows > this.#parts.mostCells) {
      refuse({
        code: 'window-too-large',
        where: '',
        found: `a window of ${columns} × ${rows} cells`,
        expected: `at most ${this.#parts.mostCells} cells at once; read an overview`,
      });
    }
  }

  /** A number that no ground has leaves the file under no circumstances. */
  #checkHeights({ column, row, columns, heights, known }: HeightBlock): void {
    for (let i = 0; i < heights.length; i++) {
      const height = heights[i] as number;
      if (isPlausible(height) || known[i] === 0) continue;
      refuse({
        code: 'implausible-height',
        where: `column ${column + (i % columns)}, row ${row + Math.floor(i / columns)}`,
        found: `${rawOf(height, this.#parts.rule)}, which would be ${height} m`,
        expected: `${PLAUSIBLE.lowest} to ${PLAUSIBLE.highest} m; it may mean "no height" or the unit may be wrong`,
      });
    }
  }
}

function keepOnly(kept: Uint8Array, heights: Float32Array | Float64Array, known: Uint8Array): void {
  for (let i = 0; i < kept.length; i++) {
    if (kept[i] !== 0) continue;
    known[i] = 0;
    heights[i] = 0;
  }
}
