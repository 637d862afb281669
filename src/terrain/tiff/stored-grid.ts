import type { Metres } from '../../units/quantity.ts';
import { FileRefusal, refusalInFile, refuse } from '../bytes/file-refusal.ts';
import type { Affine, CellWindow, CrsReference, ElevationGrid, GridFlaw, HeightBlock } from '../grid/grid.ts';
import type { BlockStore } from './block-store.ts';
import { blocksUnder, sharedRuns } from './blocks-under.ts';
import { type HeightRule, isPlausible, rawOf } from './heights-from-samples.ts';
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
  readonly #flaws = new Map<GridFlaw['code'], Map<string, string>>();

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
    const broken = new Map<string, string>();
    let hasOdd = false;
    await store.each(
      blocksUnder(window, store.places, this),
      {
        use: (index, block) => {
          if (block === null) return;
          hasOdd ||= block.odd;
          sharedRuns(index, store.places, window, this, (from, to, length) => {
            heights.set(block.heights.subarray(from, from + length), to);
            known.set(block.known.subarray(from, from + length), to);
          });
        },
        broken: (_, { path, found, expected }) => broken.set(path, `${path}: found ${found}, expected ${expected}`),
      },
      signal,
    );
    if (mask !== null) keepOnly(await mask.kept(window, signal), heights, known);
    const { column, row, columns, rows } = window;
    const odd = hasOdd
      ? this.#clearOddHeights({ column, row, columns, rows, heights, known })
      : new Map<string, string>();
    const flaws = [...this.#told('broken-blocks', broken), ...this.#told('odd-heights', odd)];
    return { column, row, columns, rows, heights, known, ...(flaws.length > 0 && { flaws }) };
  }

  flaws(): readonly GridFlaw[] {
    return [...this.#flaws].flatMap(([code, places]) => flawOf(code, this.name, places));
  }

  /** Keeps what made holes for good, and answers it for one window. */
  #told(code: GridFlaw['code'], places: ReadonlyMap<string, string>): GridFlaw[] {
    const all = this.#flaws.get(code) ?? new Map<string, string>();
    for (const [place, words] of places) if (all.size < MOST_FLAWS) all.set(place, words);
    this.#flaws.set(code, all);
    return flawOf(code, this.name, places);
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

  /** A number that no ground has leaves the file under no circumstances: its cell is a hole. */
  #clearOddHeights({ column, row, columns, heights, known }: HeightBlock): Map<string, string> {
    const odd = new Map<string, string>();
    for (let i = 0; i < heights.length; i++) {
      const height = heights[i] as number;
      if (isPlausible(height) || known[i] === 0) continue;
      const place = `column ${column + (i % columns)}, row ${row + Math.floor(i / columns)}`;
      odd.set(place, `${rawOf(height, this.#parts.rule)} at ${place}, which would be ${height} m`);
      heights[i] = 0;
      known[i] = 0;
    }
    return odd;
  }
}

/** Places of flaws that are kept apart, to count each once. */
const MOST_FLAWS = 100_000;

function flawOf(code: GridFlaw['code'], file: string, places: ReadonlyMap<string, string>): GridFlaw[] {
  const [first] = places.values();
  return first === undefined ? [] : [{ code, file, count: places.size, first }];
}

function keepOnly(kept: Uint8Array, heights: Float32Array | Float64Array, known: Uint8Array): void {
  for (let i = 0; i < kept.length; i++) {
    if (kept[i] !== 0) continue;
    known[i] = 0;
    heights[i] = 0;
  }
}
