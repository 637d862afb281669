import type { Metres } from '../units/quantity.ts';
import { type FieldPlace, type HeightField, heightAt, levelDistance } from './height-field.ts';

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

/** The ground along a straight leg; null where the field has no height on it. */
export function legBetween(field: HeightField, from: FieldPlace, to: FieldPlace): Leg | null {
  const columns = to.column - from.column;
  const rows = to.row - from.row;
  const steps = Math.max(1, Math.ceil(Math.max(Math.abs(columns), Math.abs(rows)) / STEP_IN_CELLS - ROUNDING));
  const ground = new Float64Array(steps + 1);
  for (let k = 0; k <= steps; k++) {
    const share = k / steps;
    const height = heightAt(field, from.column + columns * share, from.row + rows * share);
    if (Number.isNaN(height)) return null;
    ground[k] = height;
  }
  return { step: levelDistance(field, columns, rows) / steps, ground };
}
