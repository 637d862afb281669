import { valueAt } from '../../units/value-at.ts';
import type { OutputLayout } from '../model/outputs.ts';
import { runSystem } from '../model/run-system.ts';
import type { SystemModel, SystemState } from '../model/system-model.ts';
import type { Spread } from '../statistics/compare.ts';
import type { Estimate } from '../statistics/estimate.ts';
import { lowerTriangle } from '../statistics/lower-triangle.ts';
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
  const root = lowerTriangle(covariance, n);
  const [flow, efficiency, supplyLoss, lineLoss, ...others] = columns;
  const heights = others.slice(0, n);
  const [intake, wave, valve] = others.slice(n);
  const middle = model.available?.flow ?? Number.MAX_VALUE;
  const deviation = model.available?.deviation ?? 0;
  return (state: SystemState, draw: number) => {
    state.available = Math.max(0, middle + deviation * (flow?.[draw] ?? 0));
    state.efficiency = efficiency?.[draw] ?? 0;
    state.supplyLoss = supplyLoss?.[draw] ?? 0;
    state.lineLoss = lineLoss?.[draw] ?? 0;
    state.intake = intake?.[draw] ?? 0;
    state.wave = wave?.[draw] ?? 0;
    state.valve = valve?.[draw] ?? 0;
    for (let i = 0; i < n; i++) {
      let error = 0;
      for (let j = 0; j <= i; j++) error += valueAt(root, i * n + j) * (heights[j]?.[draw] ?? 0);
      state.ground[i] = (model.nodes[i]?.ground ?? 0) + error;
    }
  };
}

/**
 * Every output of a system for many states of what is not known, drawn quasi-randomly and always the same for a seed.
 *
 * One sorted column an output. Gives the number of draws done at every stop, so that others can have their turn.
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
  const out = new Float64Array(layout.length);
  const columns = Array.from({ length: layout.length }, () => new Float64Array(order.count));
  for (let i = 0; i < order.count; i++) {
    draw(state, i);
    runSystem(model, layout, state, out);
    columns.forEach((column, o) => {
      column[i] = valueAt(out, o);
    });
    const done = i + 1;
    if (done % STOP_EVERY === 0) yield done;
  }
  for (const column of columns) column.sort();
  return columns;
}

/** Value below which a share of a sorted column lies, straight between neighbours. */
export function percentile(sorted: Float64Array, share: number): number {
  const place = share * sorted.length - 0.5;
  const low = Math.min(Math.max(Math.floor(place), 0), sorted.length - 1);
  const high = Math.min(low + 1, sorted.length - 1);
  const a = valueAt(sorted, low);
  return a + (valueAt(sorted, high) - a) * Math.min(1, Math.max(0, place - low));
}

/** How many entries of a sorted column lie below a limit. */
function countBelow(sorted: Float64Array, limit: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (valueAt(sorted, middle) < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}

function spreadOfColumn(sorted: Float64Array): Spread {
  const estimate: Estimate = {
    low: percentile(sorted, 0.1),
    likely: percentile(sorted, 0.5),
    high: percentile(sorted, 0.9),
  };
  return { estimate, chanceAtLeast: (limit) => 1 - countBelow(sorted, limit) / sorted.length };
}

/** The spread of every output by draws, with a stop now and then that tells how many are done. */
export function* drawnSpreads(
  model: SystemModel,
  layout: OutputLayout,
  covariance: Float64Array,
  order: DrawOrder,
): Generator<number, OutputSpreads> {
  const spreads = (yield* drawnColumns(model, layout, covariance, order)).map(spreadOfColumn);
  const none: Spread = { estimate: { low: 0, likely: 0, high: 0 }, chanceAtLeast: () => 0 };
  const spread = (output: number) => spreads[output] ?? none;
  return { spread, estimate: (output) => spread(output).estimate };
}
