const before = (a, b) => a.height < b.height || (a.height === b.height && a.order < b.order);

/** A heap of cells, lowest first; ties by the order in which they came, so that the result never depends on chance. */
export class LowestFirst {
  #items = [];
  #count = 0;

  push(cell, height) {
    const item = { cell, height, order: this.#count++ };
    let k = this.#items.push(item) - 1;
    while (k > 0) {
      const parent = (k - 1) >> 1;
      if (!before(item, this.#items[parent])) break;
      this.#items[k] = this.#items[parent];
      k = parent;
    }
    this.#items[k] = item;
  }

  /** The lowest cell, or undefined when none is left. */
  pop() {
    const first = this.#items[0];
    const last = this.#items.pop();
    if (this.#items.length > 0) this.#sink(last);
    return first?.cell;
  }

  #sink(item) {
    const items = this.#items;
    let k = 0;
    for (let child = 1; child < items.length; child = 2 * k + 1) {
      if (child + 1 < items.length && before(items[child + 1], items[child])) child++;
      if (!before(items[child], item)) break;
      items[k] = items[child];
      k = child;
    }
    items[k] = item;
  }
}
