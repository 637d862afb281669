import { valueAt } from '../../units/value-at.ts';
import { runSystem } from '../model/run-system.ts';
import type { SystemModel, SystemState } from '../model/system-model.ts';
import type { Estimate } from '../statistics/estimate.ts';
import { lowerTriangle } from '../statistics/lower-triangle.ts';
import { baseState } from './first-order.ts';
import { type DrawOrder, estimateOf, normalColumns, STOP_EVERY } from './samples.ts';
import type { SolvedSystem } from './solved-system.ts';

/** Two systems on one ground. */
export interface SystemPair {
  readonly one: SolvedSystem;
  readonly other: SolvedSystem;
  /** Covariance of the heights of all nodes of the first and then of the second, m². */
  readonly covariance: Float64Array;
  /** Whether both take their water from one source as it was read, and whether both have one pump. */
  readonly sameSource: boolean;
  readonly samePump: boolean;
}

/** Something that both systems write down. */
export interface PairedOutput {
  readonly key: string;
  readonly one: number;
  readonly other: number;
}

/** Unknowns of the water and of the pump, in the order of their columns. */
const WATER = ['flow'] as const;
const PUMP = ['efficiency', 'intake', 'wave', 'valve'] as const;
const LINES = ['supplyLoss', 'lineLoss'] as const;

interface Unknowns extends Record<(typeof WATER | typeof PUMP | typeof LINES)[number], Float64Array> {}

/**
 * What the second system has more than the first, draw by draw: both stand on the same drawn ground, and what they have in common
 * (spring, pump, tolerance of pipes) is drawn once, so that it cancels. Gives the number of draws done at every stop.
 */
export function* pairedDifferences(
  pair: SystemPair,
  outputs: readonly PairedOutput[],
  order: DrawOrder,
): Generator<number, ReadonlyMap<string, Estimate>> {
  const [a, b] = [pair.one.model.nodes.length, pair.other.model.nodes.length];
  const root = lowerTriangle(pair.covariance, a + b);
  const own = 2 * (WATER.length + PUMP.length) + LINES.length;
  const columns = normalColumns(own + a + b, order);
  const [first, second] = unknownsOf(columns.slice(0, own), pair);
  const heights = columns.slice(own);
  const error = new Float64Array(a + b);
  const [runOne, runOther] = [runner(pair.one, 0), runner(pair.other, a)];
  const found = outputs.map(() => new Float64Array(order.count));
  for (let draw = 0; draw < order.count; draw++) {
    for (let i = 0; i < a + b; i++) {
      let sum = 0;
      for (let j = 0; j <= i; j++) sum += valueAt(root, i * (a + b) + j) * (heights[j]?.[draw] ?? 0);
      error[i] = sum;
    }
    const one = runOne(first, error, draw);
    const other = runOther(second, error, draw);
    outputs.forEach((output, k) => {
      const column = found[k];
      if (column) column[draw] = valueAt(other, output.other) - valueAt(one, output.one);
    });
    if ((draw + 1) % STOP_EVERY === 0) yield draw + 1;
  }
  return new Map(outputs.map(({ key }, k) => [key, estimateOf(found[k] ?? new Float64Array(1))]));
}

/** The columns of each system; what they have in common is one column. */
function unknownsOf(
  columns: readonly Float64Array[],
  { sameSource, samePump }: SystemPair,
): readonly [Unknowns, Unknowns] {
  let next = 0;
  const take = (): Float64Array => columns[next++] ?? new Float64Array(columns[0]?.length ?? 0);
  const both = (same: boolean): [Float64Array, Float64Array] => {
    const [mine, others] = [take(), take()];
    return [mine, same ? mine : others];
  };
  const pairs = {
    flow: both(sameSource),
    efficiency: both(samePump),
    intake: both(samePump),
    wave: both(samePump),
    valve: both(samePump),
  };
  const lines = { supplyLoss: take(), lineLoss: take() };
  const side = (of: 0 | 1): Unknowns => ({
    ...lines,
    flow: pairs.flow[of],
    efficiency: pairs.efficiency[of],
    intake: pairs.intake[of],
    wave: pairs.wave[of],
    valve: pairs.valve[of],
  });
  return [side(0), side(1)];
}

/** Runs a system in one draw; its nodes' errors stand in a row from a place on. The answer is overwritten by the next draw. */
function runner({ model, layout }: SolvedSystem, from: number) {
  const n = model.nodes.length;
  const state: SystemState = { ...baseState(model), ground: new Float64Array(n) };
  const out = new Float64Array(layout.length);
  return (unknowns: Unknowns, error: Float64Array, draw: number): Float64Array => {
    state.available = availableIn(model, valueAt(unknowns.flow, draw));
    state.efficiency = valueAt(unknowns.efficiency, draw);
    state.supplyLoss = valueAt(unknowns.supplyLoss, draw);
    state.lineLoss = valueAt(unknowns.lineLoss, draw);
    state.intake = valueAt(unknowns.intake, draw);
    state.wave = valueAt(unknowns.wave, draw);
    state.valve = valueAt(unknowns.valve, draw);
    for (let i = 0; i < n; i++) state.ground[i] = (model.nodes[i]?.ground ?? 0) + valueAt(error, from + i);
    runSystem(model, layout, state, out);
    return out;
  };
}

function availableIn({ available }: SystemModel, deviations: number): number {
  return Math.max(0, (available?.flow ?? Number.MAX_VALUE) + (available?.deviation ?? 0) * deviations);
}
