import { type HeightRule, heightOf, isPlausible } from '../tiff/heights-from-samples.ts';
import { isAlsoVoid, meansNothing } from '../tiff/no-data.ts';

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
  /** Median rise from a cell to the next whichever way the ground falls, in stored numbers. */
  readonly typicalStep: number;
  /** Whether the numbers are whole with gaps of three and four, as whole metres are once they are turned into feet. */
  readonly gapsOfFeet: boolean;
}

/** A foot goes 3.28 times into a metre: whole metres in rounded feet lie 3 or 4 apart, and 3 for the most part. */
const GAPS_OF_FEET: readonly number[] = [3, 4];
/** So few different numbers show no gaps. */
const FEWEST_NUMBERS = 20;
const NEARLY_ALL = 0.9;

function haveGapsOfFeet(numbers: readonly number[]): boolean {
  if (numbers.length < FEWEST_NUMBERS) return false;
  const sorted = numbers.toSorted((p, q) => p - q);
  const gaps = sorted.slice(1).map((number, i) => number - (sorted[i] ?? 0));
  return gaps.filter((gap) => GAPS_OF_FEET.includes(gap)).length > NEARLY_ALL * gaps.length;
}

/**
 * Median slope whichever way the ground falls over the median along rows, for slopes that scatter alike east and north: 1.1774 σ
 * and 0.6745 σ. Source: medians of the Rayleigh and of the half-normal distribution.
 */
const ALL_WAYS = 1.1774 / 0.6745;

const MOST_DISTINCT = 4096;
const STEPS_KEPT = 20_000;

/** Counts stored numbers row by row. */
export class ValueTally {
  readonly #rule: HeightRule;
  readonly #noData: number;
  readonly #alsoVoid: readonly number[];
  readonly #whole = new Set<number>();
  #allWhole = true;
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
    this.#alsoVoid = rule.alsoVoid ?? [];
  }

  /** Counts a row; `above` is the row next to it, where that was counted too. */
  addRow(row: ArrayLike<number>, kept: Uint8Array | null, above: ArrayLike<number> | null = null): void {
    let last: number | null = null;
    let lastOdd = false;
    for (let i = 0; i < row.length; i++) {
      const raw = row[i] as number;
      this.#cells++;
      if (kept?.[i] === 0 || meansNothing(raw, this.#noData) || isAlsoVoid(raw, this.#alsoVoid)) {
        last = null;
        continue;
      }
      this.#valid++;
      const odd = !isPlausible(heightOf(raw, this.#rule));
      if (odd) this.#addOdd(raw);
      else if (this.#allWhole) this.#addWhole(raw);
      if (raw === 0) this.#zeros++;
      else if (raw < this.#lowestButZero) this.#lowestButZero = raw;
      if (raw < this.#lowest) this.#lowest = raw;
      if (raw > this.#highest) this.#highest = raw;
      // Odd numbers among themselves may be heights in another unit; equal ones are rather a number for "no height".
      if (last !== null && odd === lastOdd && !(odd && raw === last) && this.#steps.length < STEPS_KEPT) {
        this.#steps.push(this.#riseOf(raw - last, odd ? null : (above?.[i] ?? null), raw));
      }
      last = raw;
      lastOdd = odd;
    }
  }

  /** Rise whichever way: along the row and across it, or from the one alone by the medians of slopes that scatter alike. */
  #riseOf(along: number, above: number | null, raw: number): number {
    if (above === null || meansNothing(above, this.#noData) || !isPlausible(heightOf(above, this.#rule))) {
      return ALL_WAYS * Math.abs(along);
    }
    return Math.hypot(along, raw - above);
  }

  /** A whole number that occurs; more of them than fit no relief of whole metres are not kept. */
  #addWhole(raw: number): void {
    if (!Number.isInteger(raw) || this.#whole.size >= MOST_DISTINCT) {
      this.#allWhole = false;
      this.#whole.clear();
    } else this.#whole.add(raw);
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
      gapsOfFeet: this.#allWhole && haveGapsOfFeet([...this.#whole]),
      typicalStep: steps[Math.floor(steps.length / 2)] ?? 0,
    };
  }
}
