import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import { Z975 } from '../statistics/normal.ts';
import type { VarianceParts } from './first-order.ts';
import type { SolvedSystem } from './solved-system.ts';
import type { Unknown } from './unknowns.ts';

/** A careful level difference is right to ± 3 cm; 95 % interval. Common practice, no source. */
export const CAREFUL_LEVEL: Metres = 0.03;

const LEVELLED = CAREFUL_LEVEL / Z975;

/**
 * What is still not known of a system while one measurement after another is taken in thought.
 *
 * A level difference c taken with variance m² leaves the heights K − K c cᵀ K / (cᵀ K c + m²); a timed source or a pump that
 * was measured leaves nothing of its own. Conditioning of a normal distribution.
 */
export class Doubt {
  private readonly system: SolvedSystem;
  private readonly covariance: Float64Array;
  private readonly n: number;
  private readonly firsts = new Map<number, VarianceParts & { readonly total: number }>();
  /** Covariance of an output with the height of every node, as far as it was asked for. */
  private readonly withNodes = new Map<number, Float64Array>();
  private sourceKnown = false;
  private pumpKnown = false;

  constructor(system: SolvedSystem) {
    this.system = system;
    this.covariance = system.spread.covariance.slice();
    this.n = system.model.nodes.length;
  }

  /** Share of an output's first variance that a measurement would take away now. */
  shareTaken(unknown: Unknown, output: number): number {
    const { source, efficiency, total } = this.first(output);
    if (total <= 0) return 0;
    if (unknown.kind === 'flow') return this.sourceKnown ? 0 : source / total;
    if (unknown.kind === 'pump') return this.pumpKnown ? 0 : efficiency / total;
    const along = this.alongHeights(output, unknown);
    return along ** 2 / (this.levelVariance(unknown) + LEVELLED ** 2) / total;
  }

  /**
   * The same as a share of what can be learned by then. What a pump yields shows only on one that runs, and would hide what a
   * visit before the digging can settle.
   */
  partTaken(unknown: Unknown, output: number): number {
    const { efficiency, total } = this.first(output);
    const learnable = unknown.kind === 'pump' ? total : total - efficiency;
    return learnable <= 0 ? 0 : (this.shareTaken(unknown, output) * total) / learnable;
  }

  /** An output's variance before anything was taken, by where it comes from. */
  private first(output: number): VarianceParts & { readonly total: number } {
    const known = this.firsts.get(output);
    if (known) return known;
    const parts = this.system.spread.variance(output);
    const all = { ...parts, total: parts.heights + parts.source + parts.efficiency + parts.losses };
    this.firsts.set(output, all);
    return all;
  }

  /** Takes a measurement: what it tells is known from now on. */
  take(unknown: Unknown): void {
    if (unknown.kind === 'flow') this.sourceKnown = true;
    else if (unknown.kind === 'pump') this.pumpKnown = true;
    else this.takeLevel(unknown);
  }

  private at(i: number, j: number): number {
    return valueAt(this.covariance, i * this.n + j);
  }

  private levelVariance({ from, to }: Level): number {
    return Math.max(0, this.at(to, to) + this.at(from, from) - 2 * this.at(from, to));
  }

  /** Covariance of an output with a level difference. */
  private alongHeights(output: number, { from, to }: Level): number {
    const known = this.withNodes.get(output) ?? this.keepWithNodes(output);
    return valueAt(known, to) - valueAt(known, from);
  }

  private keepWithNodes(output: number): Float64Array {
    const { spread, nodesOf } = this.system;
    const sum = new Float64Array(this.n);
    for (const node of nodesOf(output)) {
      const slope = spread.slope(output, node);
      for (let j = 0; j < this.n; j++) sum[j] = valueAt(sum, j) + slope * this.at(node, j);
    }
    this.withNodes.set(output, sum);
    return sum;
  }

  private takeLevel(level: Level): void {
    const { n } = this;
    const column = Float64Array.from({ length: n }, (_, i) => this.at(i, level.to) - this.at(i, level.from));
    const variance = this.levelVariance(level) + LEVELLED ** 2;
    for (let i = 0; i < n; i++) {
      const part = valueAt(column, i) / variance;
      for (let j = 0; j < n; j++) this.covariance[i * n + j] = this.at(i, j) - part * valueAt(column, j);
    }
    for (const [output, known] of this.withNodes) {
      const part = this.alongHeights(output, level) / variance;
      for (let j = 0; j < n; j++) known[j] = valueAt(known, j) - part * valueAt(column, j);
    }
  }
}

type Level = Extract<Unknown, { kind: 'level' }>;
