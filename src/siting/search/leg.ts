import type { Metres } from '../../units/quantity.ts';
import { type FieldPlace, type HeightField, heightAt, levelDistance } from './height-field.ts';
import type { Carried, RouteRule, Step } from './route-rule.ts';

/** The ground under a straight piece of pipe at equal steps, both ends among them. */
export interface Leg {
  /** Level length of one step. */
  readonly step: Metres;
  readonly ground: Float64Array;
}

/** Steps of a leg, in cells: no bump that the field shows between two samples is larger than a cell's own. */
const STEP_IN_CELLS = 0.5;
/** A leg of a whole number of steps keeps to them in spite of rounding. */
const ROUNDING = 1e-6;

function stepsOf(columns: number, rows: number): number {
  return Math.max(1, Math.ceil(Math.max(Math.abs(columns), Math.abs(rows)) / STEP_IN_CELLS - ROUNDING));
}

/** The ground along a straight leg; null where the field has no height on it. */
export function legBetween(field: HeightField, from: FieldPlace, to: FieldPlace): Leg | null {
  const columns = to.column - from.column;
  const rows = to.row - from.row;
  const steps = stepsOf(columns, rows);
  const ground = new Float64Array(steps + 1);
  for (let k = 0; k <= steps; k++) {
    const share = k / steps;
    const height = heightAt(field, from.column + columns * share, from.row + rows * share);
    if (Number.isNaN(height)) return null;
    ground[k] = height;
  }
  return { step: levelDistance(field, columns, rows) / steps, ground };
}

/** Walks a straight leg under a rule, only as far as it can go; false where the rule or a void ends it. */
export function walkBetween(
  field: HeightField,
  { from, to }: { readonly from: FieldPlace; readonly to: FieldPlace },
  rule: RouteRule,
  carried: Carried,
): boolean {
  const columns = to.column - from.column;
  const rows = to.row - from.row;
  const steps = stepsOf(columns, rows);
  const run = levelDistance(field, columns, rows) / steps;
  const step: Step = { run, from: 0, to: heightAt(field, from.column, from.row) };
  for (let k = 1; k <= steps; k++) {
    const share = k / steps;
    step.from = step.to;
    step.to = heightAt(field, from.column + columns * share, from.row + rows * share);
    if (Number.isNaN(step.from + step.to) || !rule.walk(carried, step)) return false;
  }
  return true;
}
