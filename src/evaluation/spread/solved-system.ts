import type { HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Metres, MetresPerSecond } from '../../units/quantity.ts';
import type { OutputLayout } from '../model/outputs.ts';
import type { SystemModel } from '../model/system-model.ts';
import type { Site } from '../site/site.ts';
import type { FirstOrder, OutputSpreads } from './first-order.ts';

/** A system that can run: its model and what comes out of it, with spreads. */
export interface SolvedSystem {
  readonly site: Site;
  readonly model: SystemModel;
  readonly layout: OutputLayout;
  /** To first order: slopes and variances, for what to measure. */
  readonly spread: FirstOrder;
  /** What is judged and shown: to first order while something is being moved, drawn once it rests. */
  readonly known: OutputSpreads;
  /** Height nodes that an output rests on. */
  readonly nodesOf: (output: number) => readonly number[];
  /** The drive pipe's pressure wave at the velocity at which the waste valve shuts; null until that is known. */
  readonly wave: { readonly speed: MetresPerSecond; readonly velocity: MetresPerSecond } | null;
  /** The highest delivery head the drive pipe's pressure wave reaches; null until the drive pipe is drawn. */
  readonly highestHead: Metres | null;
  readonly accuracy: HeightAccuracy;
}
