import type { Carried } from './route-rule.ts';

const FIRST_CAPACITY = 4096;
/** Two ways that differ by less than this, in metres, are one: rounding makes no second way. */
const SAME = 1e-9;
const NONE = -1;

/** Ways to places of which none is worse than another to the same place in both of what it carries. */
export class Labels {
  readonly #newest: Int32Array;
  readonly #most: number;
  readonly #slack: number;
  #place = new Int32Array(FIRST_CAPACITY);
  #parent = new Int32Array(FIRST_CAPACITY);
  #next = new Int32Array(FIRST_CAPACITY);
  #first = new Float64Array(FIRST_CAPACITY);
  #second = new Float64Array(FIRST_CAPACITY);
  #count = 0;

  /** `most` labels are kept at most, all of them together; `slack` is what of the second number makes no difference. */
  constructor(places: number, most: number, slack: number) {
    this.#slack = Math.max(SAME, slack);
    this.#newest = new Int32Array(places).fill(NONE);
    this.#most = most;
  }

  get count(): number {
    return this.#count;
  }

  get full(): boolean {
    return this.#count >= this.#most;
  }

  placeOf(label: number): number {
    return this.#place[label] as number;
  }

  /** Of the label's way, the label before it; −1 at the start. */
  parentOf(label: number): number {
    return this.#parent[label] as number;
  }

  read(label: number, into: Carried): void {
    into.first = this.#first[label] as number;
    into.second = this.#second[label] as number;
  }

  /** Whether a better way to its place has come since. */
  isBeaten(label: number): boolean {
    return this.#next[label] === label;
  }

  /** Whether a way that carries at least so much to a place would be no better than one that is there. */
  wouldBeBeaten(place: number, first: number, second: number): boolean {
    for (let at = this.#newest[place] as number; at !== NONE; at = this.#next[at] as number) {
      if ((this.#first[at] as number) <= first + SAME && (this.#second[at] as number) <= second + this.#slack)
        return true;
    }
    return false;
  }

  /** Adds a way to a place and drops those that it beats; −1 when it is itself no better than one that is there. */
  add(place: number, parent: number, { first, second }: Carried): number {
    let before = NONE;
    let at = this.#newest[place] as number;
    while (at !== NONE) {
      const one = this.#first[at] as number;
      const two = this.#second[at] as number;
      if (one <= first + SAME && two <= second + this.#slack) return NONE;
      const next = this.#next[at] as number;
      if (first <= one && second <= two) {
        if (before === NONE) this.#newest[place] = next;
        else this.#next[before] = next;
        this.#next[at] = at;
      } else before = at;
      at = next;
    }
    if (this.#count === this.#place.length) this.#grow();
    const label = this.#count++;
    this.#place[label] = place;
    this.#parent[label] = parent;
    this.#first[label] = first;
    this.#second[label] = second;
    this.#next[label] = this.#newest[place] as number;
    this.#newest[place] = label;
    return label;
  }

  #grow(): void {
    const capacity = 2 * this.#place.length;
    const whole = (old: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> => {
      const grown = new Int32Array(capacity);
      grown.set(old);
      return grown;
    };
    const real = (old: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> => {
      const grown = new Float64Array(capacity);
      grown.set(old);
      return grown;
    };
    this.#place = whole(this.#place);
    this.#parent = whole(this.#parent);
    this.#next = whole(this.#next);
    this.#first = real(this.#first);
    this.#second = real(this.#second);
  }
}
