const FIRST_CAPACITY = 1024;

/** A heap of numbered labels, the least worth on top; of equal worth any. */
export class LabelHeap {
  #keys = new Float64Array(FIRST_CAPACITY);
  #labels = new Int32Array(FIRST_CAPACITY);
  #size = 0;

  get size(): number {
    return this.#size;
  }

  push(label: number, key: number): void {
    if (this.#size === this.#keys.length) this.#grow();
    const keys = this.#keys;
    const labels = this.#labels;
    let at = this.#size++;
    while (at > 0) {
      const above = (at - 1) >> 1;
      const aboveKey = keys[above] as number;
      if (aboveKey <= key) break;
      keys[at] = aboveKey;
      labels[at] = labels[above] as number;
      at = above;
    }
    keys[at] = key;
    labels[at] = label;
  }

  /** Takes the label of least worth; −1 when there is none. */
  pop(): number {
    if (this.#size === 0) return -1;
    const keys = this.#keys;
    const labels = this.#labels;
    const top = labels[0] as number;
    const size = --this.#size;
    const key = keys[size] as number;
    const label = labels[size] as number;
    let at = 0;
    for (let below = 1; below < size; below = 2 * at + 1) {
      const other = below + 1;
      const least = other < size && (keys[other] as number) < (keys[below] as number) ? other : below;
      const leastKey = keys[least] as number;
      if (leastKey >= key) break;
      keys[at] = leastKey;
      labels[at] = labels[least] as number;
      at = least;
    }
    keys[at] = key;
    labels[at] = label;
    return top;
  }

  #grow(): void {
    const keys = new Float64Array(2 * this.#keys.length);
    keys.set(this.#keys);
    this.#keys = keys;
    const labels = new Int32Array(keys.length);
    labels.set(this.#labels);
    this.#labels = labels;
  }
}
