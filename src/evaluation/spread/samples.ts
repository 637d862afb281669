import { valueAt } from '../../units/value-at.ts';
import type { OutputLayout } from '../model/outputs.ts';
import { runSystem } from '../model/run-system.ts';
import type { SystemModel, SystemState } from '../model/system-model.ts';
import type { Spread } from '../statistics/compare.ts';
import type { Estimate } from '../statistics/estimate.ts';
import { valueInOrder } from '../statistics/in-order.ts';
import { lowerProduct, lowerTriangle } from '../statistics/lower-triangle.ts';
import { normalQuantile } from '../statistics/normal.ts';
import { evenCoordinate, seededBits } from '../statistics/sobol.ts';
import { baseState, type OutputSpreads } from './first-order.ts';

/** How many draws (an even number), from which seed. */
export interface DrawOrder {
  readonly count: number;
  readonly seed: number;
}

/** The draws behind an answer that is given for good: the same plan gives the same numbers wherever it is asked. */
export const ANSWER_DRAWS = { count: 4096, seed: 1 } as const satisfies DrawOrder;

/** Draws between two stops. */
export const STOP_EVERY = 256;

/**
 * Standard normal numbers, one column an unknown, evenly spread. Every draw has its mirror image, so that what follows the
 * unknowns in proportion has its middle exactly where it is without doubt.
 */
export function normalColumns(columns: number, order: DrawOrder): Float64Array[] {
  const bits = seededBits(order.seed);
  const half = order.count / 2;
  return Array.from({ length: columns }, (_, c) => {
    const drawn = evenCoordinate(c, half, bits).map(normalQuantile);
    return Float64Array.from({ length: order.count }, (_unused, i) =>
      i < half ? valueAt(drawn, i) : -valueAt(drawn, i - half),
    );
  });
}

/** Unknowns beside the ground: source, efficiency, losses of the supply line and of the lines behind the pump. */
const OTHER_UNKNOWNS = 4;

/** Unknowns of what lets a pump run: what it takes, its pressure wave, the limits of its waste valve. */
const RUN_UNKNOWNS = 3;

/** Puts one draw into a state: flow, efficiency and losses, and the ground through its covariance. */
function stateDrawer(model: SystemModel, covariance: Float64Array, columns: readonly Float64Array[]) {
  const n = model.nodes.length;
  const errorsFrom = lowerProduct(lowerTriangle(covariance, n), n);
  const [flow, efficiency, supplyLoss, lineLoss, ...others] = columns;
  const heights = others.slice(0, n);
  const [intake, wave, valve] = others.slice(n);
  const middle = model.available?.flow ?? Number.MAX_VALUE;
  const deviation = model.available?.deviation ?? 0;
  const likely = Float64Array.from(model.nodes, ({ ground }) => ground);
  const normal = new Float64Array(n);
  return (state: SystemState, draw: number) => {
    state.available = Math.max(0, middle + deviation * (flow?.[draw] ?? 0));
    state.efficiency = efficiency?.[draw] ?? 0;
    state.supplyLoss = supplyLoss?.[draw] ?? 0;
    state.lineLoss = lineLoss?.[draw] ?? 0;
    state.intake = intake?.[draw] ?? 0;
    state.wave = wave?.[draw] ?? 0;
    state.valve = valve?.[draw] ?? 0;
    let at = 0;
    for (const height of heights) normal[at++] = valueAt(height, draw);
    errorsFrom(normal, state.ground);
    for (let node = 0; node < n; node++) state.ground[node] = valueAt(state.ground, node) + valueAt(likely, node);
  };
}

/**
 * Every output of a system for many states of what is not known, drawn quasi-randomly and always the same for a seed.
 *
 * One column an output, in the order of the draws. Gives the number of draws done at every stop, so that others can have their turn.
 */
function* drawnColumns(
  model: SystemModel,
  layout: OutputLayout,
  covariance: Float64Array,
  order: DrawOrder,
): Generator<number, Float64Array[]> {
  const n = model.nodes.length;
  const draw = stateDrawer(model, covariance, normalColumns(OTHER_UNKNOWNS + n + RUN_UNKNOWNS, order));
  const state: SystemState = { ...baseState(model), ground: new Float64Array(n) };
  const columns = Array.from({ length: layout.length }, () => new Float64Array(order.count));
  // Some draws are written down together: column after column is a long way in the machine's memory.
  const outs = Array.from({ length: TOGETHER }, () => new Float64Array(layout.length));
  for (let from = 0; from < order.count; from += TOGETHER) {
    const some = outs.slice(0, order.count - from);
    for (const [i, out] of some.entries()) {
      draw(state, from + i);
      runSystem(model, layout, state, out);
    }
    writeDown(some, columns, from);
    const done = from + some.length;
    if (done % STOP_EVERY === 0) yield done;
  }
  return columns;
}

const TOGETHER = 16;

/** Puts what some runs wrote into the columns, from a place on. */
function writeDown(outs: readonly Float64Array[], columns: readonly Float64Array[], from: number): void {
  let output = 0;
  for (const column of columns) {
    let place = from;
    for (const out of outs) column[place++] = valueAt(out, output);
    output++;
  }
}

/** How many entries of a column lie below a limit. */
function countBelow(column: Float64Array, limit: number): number {
  let count = 0;
  for (const value of column) if (value < limit) count++;
  return count;
}

/** What a column of draws says; it is put in order only as far as is asked for. */
class DrawnSpread implements Spread {
  readonly #column: Float64Array;
  #estimate: Estimate | null = null;

  constructor(column: Float64Array) {
    this.#column = column;
  }

  get estimate(): Estimate {
    this.#estimate ??= estimateOf(this.#column);
    return this.#estimate;
  }

  chanceAtLeast(limit: number): number {
    return 1 - countBelow(this.#column, limit) / this.#column.length;
  }
}

/** 10th, 50th and 90th percentile, straight between neighbours. */
export function estimateOf(column: Float64Array): Estimate {
  let before = 0;
  const percentile = (share: number): number => {
    const place = share * column.length - 0.5;
    const low = Math.min(Math.max(Math.floor(place), 0), column.length - 1);
    const high = Math.min(low + 1, column.length - 1);
    const a = valueInOrder(column, low, before);
    const b = valueInOrder(column, high, low);
    before = high;
    return a + (b - a) * Math.min(1, Math.max(0, place - low));
  };
  return { low: percentile(0.1), likely: percentile(0.5), high: percentile(0.9) };
}

/** The spread of every output by draws, with a stop now and then that tells how many are done. Only what is asked for is sorted. */
export function* drawnSpreads(
  model: SystemModel,
  layout: OutputLayout,
  covariance: Float64Array,
  order: DrawOrder,
): Generator<number, OutputSpreads> {
  const columns = yield* drawnColumns(model, layout, covariance, order);
  const known: Spread[] = [];
  const none: Spread = { estimate: { low: 0, likely: 0, high: 0 }, chanceAtLeast: () => 0 };
  const spread = (output: number): Spread => {
    const column = columns[output];
    if (column === undefined) return none;
    const found = known[output] ?? new DrawnSpread(column);
    known[output] = found;
    return found;
  };
  return { spread, estimate: (output) => spread(output).estimate };
}
