import { type FieldPlace, type HeightField, heightAt, levelDistance } from './height-field.ts';
import { LabelHeap } from './label-heap.ts';
import { Labels } from './labels.ts';
import { type Leg, legBetween } from './leg.ts';
import { type Move, movesOf } from './moves.ts';
import type { Carried, Left, RouteRule, Step } from './route-rule.ts';

export interface RouteEnds {
  readonly from: FieldPlace;
  readonly to: FieldPlace;
}

/** Ways that are kept at most: some 250 MB. */
export const MOST_LABELS = 8_000_000;

/** Cells in reach of an end that does not lie on the middle of one: those of the square around it. */
const REACH = 2;

export type SearchState = 'going' | 'found' | 'none' | 'full';

/**
 * The best way between two places of a field under a rule, over moves between the middles of cells.
 *
 * A search of labels in the order of their bounds: of the ways to a cell all are kept that no other beats in both of what
 * they carry, so the first to reach the end is the best. Sources: E. W. Dijkstra, Numerische Mathematik 1, 1959;
 * P. E. Hart, N. J. Nilsson, B. Raphael, IEEE Transactions SSC 4, 1968; B. S. Stewart, C. C. White, Multiobjective A*,
 * Journal of the ACM 38, 1991 (from memory).
 */
export class RouteSearch {
  readonly #field: HeightField;
  readonly #ends: RouteEnds;
  readonly #rule: RouteRule;
  readonly #moves: readonly Move[];
  readonly #labels: Labels;
  readonly #heap = new LabelHeap();
  readonly #arrivals = new Map<number, Leg>();
  readonly #goal: number;
  readonly #goalHeight: number;
  readonly #carried: Carried = { first: 0, second: 0 };
  readonly #step: Step = { run: 0, from: 0, to: 0 };
  readonly #left: Left = { run: 0, straight: 0 };
  #found = -1;
  #expanded = 0;

  constructor(field: HeightField, ends: RouteEnds, rule: RouteRule, neighbours: 16 | 32) {
    this.#field = field;
    this.#ends = ends;
    this.#rule = rule;
    this.#moves = movesOf(field, neighbours);
    this.#goal = field.columns * field.rows;
    this.#labels = new Labels(this.#goal + 1, MOST_LABELS, rule.slack);
    this.#goalHeight = heightAt(field, ends.to.column, ends.to.row);
    this.#begin();
  }

  /** Ways followed so far. */
  get expanded(): number {
    return this.#expanded;
  }

  /** Follows at most so many ways further. */
  go(most: number): SearchState {
    for (let k = 0; k < most; k++) {
      if (this.#labels.full) return 'full';
      const label = this.#heap.pop();
      if (label < 0) return 'none';
      if (this.#labels.isBeaten(label)) continue;
      if (this.#labels.placeOf(label) === this.#goal) {
        this.#found = label;
        return 'found';
      }
      this.#expanded += 1;
      this.#expand(label);
    }
    return 'going';
  }

  /** Places of the way that was found, both ends among them, each with what the way carries there. */
  way(): { readonly place: FieldPlace; readonly carried: Carried }[] {
    const places: { place: FieldPlace; carried: Carried }[] = [];
    for (let label = this.#found; label >= 0; label = this.#labels.parentOf(label)) {
      const carried: Carried = { first: 0, second: 0 };
      this.#labels.read(label, carried);
      places.push({ place: this.#placeOf(this.#labels.placeOf(label)), carried });
    }
    if (places.length > 0) places.push({ place: this.#ends.from, carried: this.#rule.start() });
    return places.reverse();
  }

  #placeOf(place: number): FieldPlace {
    if (place === this.#goal) return this.#ends.to;
    const row = Math.floor(place / this.#field.columns);
    return { column: place - row * this.#field.columns, row };
  }

  /** Legs from the start to the cells around it and straight to the end, and from the cells around the end to it. */
  #begin(): void {
    const { from, to } = this.#ends;
    for (const cell of this.#cellsAround(to)) {
      const leg = legBetween(this.#field, this.#placeOf(cell), to);
      if (leg) this.#arrivals.set(cell, leg);
    }
    for (const cell of this.#cellsAround(from))
      this.#follow(-1, legBetween(this.#field, from, this.#placeOf(cell)), cell);
    this.#follow(-1, legBetween(this.#field, from, to), this.#goal);
  }

  #cellsAround({ column, row }: FieldPlace): number[] {
    const cells: number[] = [];
    for (let r = Math.floor(row) - REACH + 1; r <= Math.floor(row) + REACH; r++) {
      for (let c = Math.floor(column) - REACH + 1; c <= Math.floor(column) + REACH; c++) {
        if (c >= 0 && r >= 0 && c < this.#field.columns && r < this.#field.rows)
          cells.push(r * this.#field.columns + c);
      }
    }
    return cells;
  }

  #follow(parent: number, leg: Leg | null, place: number): void {
    if (!leg) return;
    if (parent < 0) Object.assign(this.#carried, this.#rule.start());
    else this.#labels.read(parent, this.#carried);
    const step = this.#step;
    step.run = leg.step;
    for (let k = 1; k < leg.ground.length; k++) {
      step.from = leg.ground[k - 1] as number;
      step.to = leg.ground[k] as number;
      if (!this.#rule.walk(this.#carried, step)) return;
    }
    this.#add(place, parent);
  }

  #add(place: number, parent: number): void {
    const left = this.#left;
    if (place === this.#goal) {
      left.run = 0;
      left.straight = 0;
    } else {
      const { columns, heights } = this.#field;
      const row = Math.floor(place / columns);
      const { to } = this.#ends;
      left.run = levelDistance(this.#field, to.column - (place - row * columns), to.row - row);
      const rise = this.#goalHeight - (heights[place] as number);
      left.straight = Math.sqrt(left.run * left.run + rise * rise);
    }
    const bound = this.#rule.bound(this.#carried, left);
    if (bound === Number.POSITIVE_INFINITY) return;
    const label = this.#labels.add(place, parent, this.#carried);
    if (label >= 0) this.#heap.push(label, bound);
  }

  #expand(label: number): void {
    const place = this.#labels.placeOf(label);
    const { columns, rows, heights, known } = this.#field;
    const row = Math.floor(place / columns);
    const column = place - row * columns;
    const from = heights[place] as number;
    const labels = this.#labels;
    const carried = this.#carried;
    const { firstPerMetre } = this.#rule;
    labels.read(label, carried);
    const { first, second } = carried;
    for (const move of this.#moves) {
      const c = column + move.columns;
      const r = row + move.rows;
      if (c < 0 || r < 0 || c >= columns || r >= rows) continue;
      const next = place + move.offset;
      if (known[next] !== 1) continue;
      if (labels.wouldBeBeaten(next, first + firstPerMetre * move.run, second)) continue;
      carried.first = first;
      carried.second = second;
      if (this.#walk(move, place, from, heights[next] as number)) this.#add(next, label);
    }
    const arrival = this.#arrivals.get(place);
    if (arrival) this.#follow(label, arrival, this.#goal);
  }

  /** Takes a move from a cell step by step; false where a cell beside it has no height or the rule forbids a step. */
  #walk({ between, step: run }: Move, place: number, from: number, to: number): boolean {
    const { heights, known } = this.#field;
    const step = this.#step;
    step.run = run;
    step.from = from;
    for (let k = 0; k < between.length; k++) {
      const passed = between[k] as Move['between'][number];
      const one = place + passed.one;
      const other = place + passed.other;
      if (known[one] !== 1 || known[other] !== 1) return false;
      const beside = (heights[one] as number) * (1 - passed.share) + (heights[other] as number) * passed.share;
      step.to = (passed.ends * (from + to)) / 2 + (1 - passed.ends) * beside;
      if (!this.#rule.walk(this.#carried, step)) return false;
      step.from = step.to;
    }
    step.to = to;
    return this.#rule.walk(this.#carried, step);
  }
}
