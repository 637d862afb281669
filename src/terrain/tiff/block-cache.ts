/** Heights of one block, or of none where the file leaves the block out. */
export interface DecodedBlock {
  readonly heights: Float32Array | Float64Array;
  readonly known: Uint8Array;
  /** Whether a cell holds a number that no ground has. */
  readonly odd: boolean;
}

/** Unpacked blocks kept for the next window, the least used given up when the budget is full. */
export class BlockCache {
  readonly budget: number;
  #held = 0;
  readonly #blocks = new Map<string, DecodedBlock>();

  constructor(budget: number) {
    this.budget = budget;
  }

  get held(): number {
    return this.#held;
  }

  get(key: string): DecodedBlock | undefined {
    const block = this.#blocks.get(key);
    if (block !== undefined) {
      this.#blocks.delete(key);
      this.#blocks.set(key, block);
    }
    return block;
  }

  set(key: string, block: DecodedBlock): void {
    const bytes = bytesOf(block);
    if (bytes > this.budget || this.#blocks.has(key)) return;
    this.#blocks.set(key, block);
    this.#held += bytes;
    for (const [oldest, dropped] of this.#blocks) {
      if (this.#held <= this.budget) return;
      this.#blocks.delete(oldest);
      this.#held -= bytesOf(dropped);
    }
  }
}

function bytesOf(block: DecodedBlock): number {
  return block.heights.byteLength + block.known.byteLength;
}
