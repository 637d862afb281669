interface Entry<Block> {
  readonly block: Promise<Block>;
  bytes: number;
}

/** Blocks used last, within a budget of bytes; may be shared by several owners. */
export class BlockCache<Block> {
  readonly #budget: number;
  readonly #bytesOf: (block: Block) => number;
  readonly #entries = new Map<string, Entry<Block>>();
  readonly #owners = new Map<object, number>();
  #bytes = 0;

  constructor(budget: number, bytesOf: (block: Block) => number) {
    this.#budget = budget;
    this.#bytesOf = bytesOf;
  }

  /** The block of that key, made when it is not there; one that failed or was cancelled is forgotten. */
  take(owner: object, key: string, make: () => Promise<Block>): Promise<Block> {
    const full = `${this.#ownerNumber(owner)}/${key}`;
    const old = this.#entries.get(full);
    if (old) {
      this.#entries.delete(full);
      this.#entries.set(full, old);
      return old.block;
    }
    const entry: Entry<Block> = { block: make(), bytes: 0 };
    this.#entries.set(full, entry);
    entry.block.then(
      (block) => this.#weigh(full, entry, this.#bytesOf(block)),
      () => this.#entries.delete(full),
    );
    return entry.block;
  }

  #weigh(key: string, entry: Entry<Block>, bytes: number): void {
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
