import { FileRefusal } from '../bytes/file-refusal.ts';
import type { CellWindow } from '../grid/grid.ts';
import type { BlockStore } from './block-store.ts';
import { blocksUnder, sharedRuns } from './blocks-under.ts';
import type { HeightRule } from './heights-from-samples.ts';

/** A mask's numbers as a height rule: 0 means that the cell has no height, anything else that it has one. */
export const MASK_RULE: HeightRule = { noData: 0, factor: 1, add: 0 };

/** Which cells a mask beside the heights keeps: a mask image of the same size, or a band that says how opaque a cell is. */
export class VoidMask {
  readonly #store: BlockStore;
  readonly #size: { columns: number; rows: number };

  constructor(store: BlockStore, size: { columns: number; rows: number }) {
    this.#store = store;
    this.#size = size;
  }

  /** 1 for each cell of a window that keeps its height, 0 for the others. A block that the file leaves out keeps none. */
  async kept(window: CellWindow, signal?: AbortSignal): Promise<Uint8Array> {
    const kept = new Uint8Array(window.columns * window.rows);
    const { places } = this.#store;
    await this.#store.each(
      blocksUnder(window, places, this.#size),
      {
        use: (index, block) => {
          if (block === null) return;
          sharedRuns(index, places, window, this.#size, (from, to, length) =>
            kept.set(block.known.subarray(from, from + length), to),
          );
        },
        broken: (_, problem) => {
          throw new FileRefusal({ ...problem, path: `mask, ${problem.path}` });
        },
      },
      signal,
    );
    return kept;
  }
}
