import { type HeightRule, heightOf, isPlausible } from '../tiff/heights-from-samples.ts';
import { meansNothing } from '../tiff/no-data.ts';

/** What a look at some blocks of a file says about its stored numbers. */
export interface ValueSurvey {
  /** Cells looked at, and how many of them hold a number that is not nodata. */
  readonly cells: number;
  readonly valid: number;
  /** Whether every block of the file was looked at. */
  readonly complete: boolean;
  readonly lowest: number;
  readonly highest: number;
  /** Lowest number apart from 0, to tell a filling 0 from ground at sea level. */
  readonly lowestButZero: number;
  readonly zeros: number;
  readonly implausible: number;
  /** The implausible number that occurs most, and how often. */
  readonly commonImplausible: { readonly raw: number; readonly count: number } | null;
  readonly distinctImplausible: number;
  /** Median of the absolute difference between neighbours in a row, in stored numbers. */
  readonly typicalStep: number;
}

const MOST_DISTINCT = 4096;
const STEPS_KEPT = 20_000;

/** Counts stored numbers row by row. */
export class ValueTally {
  readonly #rule: HeightRule;
  readonly #noData: number;
  readonly #odd = new Map<number, number>();
  readonly #steps: number[] = [];
  #cells = 0;
  #valid = 0;
  #zeros = 0;
  #implausible = 0;
  #lowest = Number.POSITIVE_INFINITY;
  #lowestButZero = Number.POSITIVE_INFINITY;
  #highest = Number.NEGATIVE_INFINITY;

  constructor(rule: HeightRule) {
    this.#rule = rule;
    this.#noData = rule.noData ?? Number.NaN;
  }

  addRow(row: ArrayLike<number>, kept: Uint8Array | null): void {
    let last: number | null = null;
    for (let i = 0; i < row.length; i++) {
      const raw = row[i] as number;
      this.#cells++;
      if (kept?.[i] === 0 || meansNothing(raw, this.#noData)) {
        last = null;
        continue;
      }
      this.#valid++;
      const odd = !isPlausible(heightOf(raw, this.#rule));
      if (odd) this.#addOdd(raw);
      if (raw === 0) this.#zeros++;
      else if (raw < this.#lowestButZero) this.#lowestButZero = raw;
      if (raw < this.#lowest) this.#lowest = raw;
      if (raw > this.#highest) this.#highest = raw;
      if (last !== null && !odd && this.#steps.length < STEPS_KEPT) this.#steps.push(Math.abs(raw - last));
      last = odd ? null : raw;
    }
  }

  #addOdd(raw: number): void {
    this.#implausible++;
    const seen = this.#odd.get(raw);
    if (seen !== undefined || this.#odd.size < MOST_DISTINCT) this.#odd.set(raw, (seen ?? 0) + 1);
  }

  result(complete: boolean): ValueSurvey {
    let common: { raw: number; count: number } | null = null;
    for (const [raw, count] of this.#odd) if (common === null || count > common.count) common = { raw, count };
    const steps = this.#steps.sort((p, q) => p - q);
    return {
      cells: this.#cells,
      valid: this.#valid,
      complete,
      lowest: this.#lowest,
      highest: this.#highest,
      lowestButZero: this.#lowestButZero,
      zeros: this.#zeros,
      implausible: this.#implausible,
      commonImplausible: common,
      distinctImplausible: this.#odd.size,
      typicalStep: steps[Math.floor(steps.length / 2)] ?? 0,
    };
  }
}
