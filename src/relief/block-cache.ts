import type { Heights } from './heights.ts';

const BYTES_PER_CELL = 5;

interface Entry {
  readonly block: Promise<Heights>;
  bytes: number;
}

/** Blocks of heights used last, within a budget of bytes; shared by all grids of one terrain. */
export class BlockCache {
  readonly #budget: number;
  readonly #entries = new Map<string, Entry>();
  readonly #owners = new Map<object, number>();
  #bytes = 0;

  constructor(budget: number) {
    this.#budget = budget;
  }

  /** The block of that key, made when it is not there; one that failed or was cancelled is forgotten. */
  take(owner: object, key: string, make: () => Promise<Heights>): Promise<Heights> {
    const full = `${this.#ownerNumber(owner)}/${key}`;
    const old = this.#entries.get(full);
    if (old) {
      this.#entries.delete(full);
      this.#entries.set(full, old);
      return old.block;
    }
    const entry: Entry = { block: make(), bytes: 0 };
    this.#entries.set(full, entry);
    entry.block.then(
      (block) => this.#weigh(full, entry, block.columns * block.rows * BYTES_PER_CELL),
      () => this.#entries.delete(full),
    );
    return entry.block;
  }

  #weigh(key: string, entry: Entry, bytes: number): void {
    if (this.#entries.get(key) !== entry) return;
    entry.bytes = bytes;
    this.#bytes += bytes;
    for (const [oldest, old] of this.#entries) {
      if (this.#bytes <= this.#budget || oldest === key) return;
      this.#bytes -= old.bytes;
      this.#entries.delete(oldest);
    }
  }

  #ownerNumber(owner: object): number {
    const number = this.#owners.get(owner) ?? this.#owners.size;
    this.#owners.set(owner, number);
    return number;
  }
}
