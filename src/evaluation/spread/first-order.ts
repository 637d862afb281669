import { valueAt } from '../../units/value-at.ts';
import type { NodeGroups } from '../model/height-nodes.ts';
import type { OutputLayout } from '../model/outputs.ts';
import { runSystem } from '../model/run-system.ts';
import type { SystemModel, SystemState } from '../model/system-model.ts';
import { type Spread, spreadOf } from '../statistics/compare.ts';
import type { Estimate } from '../statistics/estimate.ts';
import { Z90 } from '../statistics/normal.ts';

/** The spread of every output of a system, by whatever way it was found. */
export interface OutputSpreads {
  spread(output: number): Spread;
  estimate(output: number): Estimate;
}

/**
 * First-order spread of every output.
 *
 * Each unknown is moved to its 10th and 90th percentile, one at a time, and the effects are added as independent ones are:
 * by their squares, below and above the middle apart. Ground heights are not independent of each other; their gradient
 * goes through their covariance. Propagation of uncertainty to first order; the middle is the run at the likely values.
 */
export interface FirstOrder extends OutputSpreads {
  readonly layout: OutputLayout;
  readonly likely: Float64Array;
  /** Effect on an output of raising a node's ground by a metre. */
  slope(output: number, node: number): number;
  /** Covariance of the nodes' ground heights, m², row by row. */
  readonly covariance: Float64Array;
  /** Variance of an output by where it comes from: ground heights, the source's flow, the pump, the pipes. */
  variance(output: number): VarianceParts;
}

export interface VarianceParts {
  readonly heights: number;
  readonly source: number;
  readonly efficiency: number;
  readonly losses: number;
}

/** Step of the difference quotient for heights: small against any spread, large against rounding. */
const STEP = 1e-3;

/** Everything at its likely value. */
export function baseState(model: SystemModel): SystemState {
  return {
    ground: Float64Array.from(model.nodes, (n) => n.ground),
    available: model.available?.flow ?? Number.MAX_VALUE,
    efficiency: 0,
    supplyLoss: 0,
    lineLoss: 0,
    intake: 0,
    wave: 0,
    valve: 0,
  };
}

/** Runs a model at its likely values with some of them changed: every output. */
type RunAt = (change: (state: SystemState) => void) => Float64Array;

function runnerOf(model: SystemModel, layout: OutputLayout): RunAt {
  const base = baseState(model);
  return (change) => {
    const state = { ...base, ground: base.ground.slice() };
    change(state);
    const out = new Float64Array(layout.length);
    runSystem(model, layout, state, out);
    return out;
  };
}

/** Difference quotients of every output for each group of nodes. */
function groupSlopes(runAt: RunAt, groups: NodeGroups): Float64Array[] {
  return groups.map((group) => {
    const moved = (step: number) =>
      runAt(({ ground }) => {
        for (const node of group) ground[node] = valueAt(ground, node) + step;
      });
    const up = moved(STEP);
    const down = moved(-STEP);
    return up.map((value, i) => (value - valueAt(down, i)) / (2 * STEP));
  });
}

/** Outputs at the 10th and 90th percentile of one unknown, the rest at their likely values. */
function sides(runAt: RunAt, move: (state: SystemState, z: number) => void): Sides {
  return { low: runAt((s) => move(s, -Z90)), high: runAt((s) => move(s, Z90)) };
}

interface Sides {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** How far an output falls below and rises above its middle between the two sides of an unknown. */
function reach(pair: Sides, middle: number, output: number): { below: number; above: number } {
  const a = valueAt(pair.low, output) - middle;
  const b = valueAt(pair.high, output) - middle;
  return { below: Math.max(0, -a, -b), above: Math.max(0, a, b) };
}

export function firstOrder(
  model: SystemModel,
  layout: OutputLayout,
  heights: {
    readonly groups: NodeGroups;
    readonly covariance: Float64Array;
    /** Nodes on which an output rests. */
    readonly nodesOf: (output: number) => readonly number[];
  },
): FirstOrder {
  const n = model.nodes.length;
  const runAt = runnerOf(model, layout);
  const likely = runAt(() => {});
  const slopes = groupSlopes(runAt, heights.groups);
  const slopesOf: (Float64Array | undefined)[] = [];
  heights.groups.forEach((group, g) => {
    for (const node of group) slopesOf[node] = slopes[g];
  });
  const deviation = model.available?.deviation ?? 0;
  const source = sides(runAt, (s, z) => {
    s.available = Math.max(0, s.available + z * deviation);
  });
  const efficiency = sides(runAt, (s, z) => {
    s.efficiency = z;
  });
  const supplyLoss = sides(runAt, (s, z) => {
    s.supplyLoss = z;
  });
  const lineLoss = sides(runAt, (s, z) => {
    s.lineLoss = z;
  });
  // What a pump takes, its wave and its valve bear on different things each: one pair of runs moves all three.
  const pump = sides(runAt, (s, z) => {
    s.intake = z;
    s.wave = z;
    s.valve = z;
  });
  const unknowns = [source, efficiency, supplyLoss, lineLoss, pump];

  const slope = (output: number, node: number) => slopesOf[node]?.[output] ?? 0;

  /** Σ sᵢ sⱼ Kᵢⱼ over the nodes that an output moves with; K is symmetric. */
  function heightVariance(output: number): number {
    const moving = heights.nodesOf(output).filter((node) => slope(output, node) !== 0);
    let sum = 0;
    moving.forEach((i, a) => {
      const own = slope(output, i);
      sum += own * own * valueAt(heights.covariance, i * n + i);
      for (let b = 0; b < a; b++) {
        const j = valueAt(moving, b);
        sum += 2 * own * slope(output, j) * valueAt(heights.covariance, i * n + j);
      }
    });
    return Math.max(0, sum);
  }

  const found: (Estimate | undefined)[] = [];

  function estimate(output: number): Estimate {
    const known = found[output];
    if (known) return known;
    const middle = valueAt(likely, output);
    const h = Z90 * Math.sqrt(heightVariance(output));
    const reaches = unknowns.map((pair) => reach(pair, middle, output));
    const low = middle - Math.hypot(h, ...reaches.map((r) => r.below));
    const high = middle + Math.hypot(h, ...reaches.map((r) => r.above));
    const estimated = { low: layout.notNegative(output) ? Math.max(0, low) : low, likely: middle, high };
    found[output] = estimated;
    return estimated;
  }

  return {
    layout,
    likely,
    slope,
    covariance: heights.covariance,
    estimate,
    spread: (output) => spreadOf(estimate(output)),
    variance(output) {
      const middle = valueAt(likely, output);
      const of = (pair: Sides) => {
        const { below, above } = reach(pair, middle, output);
        return ((below + above) / (2 * Z90)) ** 2;
      };
      return {
        heights: heightVariance(output),
        source: of(source),
        efficiency: of(efficiency),
        losses: of(supplyLoss) + of(lineLoss),
      };
    },
  };
}
