import type { Metres } from '../units/quantity.ts';
import type { DecodedBlock } from './block-cache.ts';
import type { BlockIndex, BlockStore } from './block-store.ts';
import { FileRefusal, refusalInFile, refuse } from './file-refusal.ts';
import type { Affine, CellWindow, CrsReference, ElevationGrid, HeightBlock } from './grid.ts';

export interface StoredGridParts {
  readonly name: string;
  readonly columns: number;
  readonly rows: number;
  readonly affine: Affine;
  readonly crs: CrsReference;
  readonly overviews: readonly ElevationGrid[];
  readonly quantum: Metres;
  readonly store: BlockStore;
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
    const cells = window.columns * window.rows;
    const heights = this.#parts.wide ? new Float64Array(cells) : new Float32Array(cells);
    const block: HeightBlock = { ...window, heights, known: new Uint8Array(cells) };
    const blocks = this.#blocksUnder(window);
    await this.#parts.store.each(blocks, (index, decoded) => this.#paste(index, decoded, block), signal);
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

  #blocksUnder(window: CellWindow): BlockIndex[] {
    const { places } = this.#parts.store;
    const left = Math.max(0, window.column);
    const right = Math.min(this.columns, window.column + window.columns) - 1;
    const top = Math.max(0, window.row);
    const bottom = Math.min(this.rows, window.row + window.rows) - 1;
    const blocks: BlockIndex[] = [];
    if (left > right || top > bottom) return blocks;
    for (let row = places.blockRowOf(top); row <= places.blockRowOf(bottom); row++) {
      const last = Math.floor(right / places.blockColumns);
      for (let column = Math.floor(left / places.blockColumns); column <= last; column++) blocks.push({ column, row });
    }
    return blocks;
  }

  #paste(index: BlockIndex, decoded: DecodedBlock | null, out: HeightBlock): void {
    if (decoded === null) return;
    const { places } = this.#parts.store;
    const blockLeft = index.column * places.blockColumns;
    const blockTop = places.top(index.row);
    const left = Math.max(out.column, blockLeft, 0);
    const right = Math.min(out.column + out.columns, blockLeft + places.blockColumns, this.columns);
    const top = Math.max(out.row, blockTop, 0);
    const bottom = Math.min(out.row + out.rows, blockTop + places.rowsOf(index.row), this.rows);
    for (let row = top; row < bottom; row++) {
      const from = (row - blockTop) * places.blockColumns + left - blockLeft;
      const to = (row - out.row) * out.columns + left - out.column;
      out.heights.set(decoded.heights.subarray(from, from + right - left), to);
      out.known.set(decoded.known.subarray(from, from + right - left), to);
    }
  }
}
