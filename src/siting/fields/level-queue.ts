/**
 * Cells in the order of a level, the lowest first: a binary heap with the levels beside the cells.
 *
 * Levels are kept in single precision, as the heights are: what comes out compares equal with what went in.
 */
export class LevelQueue {
  #levels = new Float32Array(1024);
  #cells = new Int32Array(1024);
  #size = 0;
  /** Level of the cell that was taken last. */
  level = 0;

  get size(): number {
    return this.#size;
  }

  clear(): void {
    this.#size = 0;
  }

  push(cell: number, level: number): void {
    if (this.#size === this.#cells.length) this.#grow();
    const levels = this.#levels;
    const cells = this.#cells;
    let at = this.#size++;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      const above = levels[parent] as number;
      if (above <= level) break;
      levels[at] = above;
      cells[at] = cells[parent] as number;
      at = parent;
    }
    levels[at] = level;
    cells[at] = cell;
  }

  /** Takes the lowest cell; −1 when there is none. */
  pop(): number {
    if (this.#size === 0) return -1;
    const levels = this.#levels;
    const cells = this.#cells;
    const top = cells[0] as number;
    this.level = levels[0] as number;
    const size = --this.#size;
    if (size === 0) return top;
    const level = levels[size] as number;
    const cell = cells[size] as number;
    let at = 0;
    for (;;) {
      let child = 2 * at + 1;
      if (child >= size) break;
      if (child + 1 < size && (levels[child + 1] as number) < (levels[child] as number)) child += 1;
      const below = levels[child] as number;
      if (below >= level) break;
      levels[at] = below;
      cells[at] = cells[child] as number;
      at = child;
    }
    levels[at] = level;
    cells[at] = cell;
    return top;
  }

  #grow(): void {
    const levels = new Float32Array(this.#levels.length * 2);
    const cells = new Int32Array(this.#cells.length * 2);
    levels.set(this.#levels);
    cells.set(this.#cells);
    this.#levels = levels;
    this.#cells = cells;
  }
}
