/**
 * Cells by a value that only grows along a way, in buckets as wide as the smallest step: cells of one bucket cannot better each
 * other, so each is final when its bucket comes up. A cell bettered later is put in again; the stale entry is for the taker to
 * pass over.
 *
 * The value must be rounded as it is stored (`Math.fround`) before its bucket is taken, or the two disagree at an edge.
 * Sources: R. B. Dial, Algorithm 360, Communications of the ACM 12, 1969 (from memory); E. V. Denardo, B. L. Fox, Operations
 * Research 27, 1979 (from memory).
 */
export class BucketQueue {
  readonly #perUnit: number;
  #heads = new Int32Array(1024).fill(-1);
  #cells = new Int32Array(4096);
  #nexts = new Int32Array(4096);
  #used = 0;
  #free = -1;
  #at = 0;
  #last = -1;

  constructor(width: number) {
    this.#perUnit = 1 / width;
  }

  push(cell: number, value: number): void {
    let bucket = Math.floor(value * this.#perUnit);
    if (bucket < this.#at) bucket = this.#at;
    if (bucket >= this.#heads.length) this.#widen(bucket);
    if (bucket > this.#last) this.#last = bucket;
    let entry = this.#free;
    if (entry >= 0) this.#free = this.#nexts[entry] as number;
    else {
      if (this.#used === this.#cells.length) this.#grow();
      entry = this.#used++;
    }
    this.#cells[entry] = cell;
    this.#nexts[entry] = this.#heads[bucket] as number;
    this.#heads[bucket] = entry;
  }

  /** Takes a cell of the lowest bucket; −1 when there is none. */
  pop(): number {
    const heads = this.#heads;
    while (this.#at <= this.#last) {
      const entry = heads[this.#at] as number;
      if (entry >= 0) {
        heads[this.#at] = this.#nexts[entry] as number;
        this.#nexts[entry] = this.#free;
        this.#free = entry;
        return this.#cells[entry] as number;
      }
      this.#at += 1;
    }
    return -1;
  }

  #widen(bucket: number): void {
    const heads = new Int32Array(Math.max(bucket + 1, this.#heads.length * 2)).fill(-1);
    heads.set(this.#heads);
    this.#heads = heads;
  }

  #grow(): void {
    const cells = new Int32Array(this.#cells.length * 2);
    const nexts = new Int32Array(this.#nexts.length * 2);
    cells.set(this.#cells);
    nexts.set(this.#nexts);
    this.#cells = cells;
    this.#nexts = nexts;
  }
}
