import type { PointId, RouteId } from '../../plan/model/plan.ts';
import type { CubicMetresPerSecond, Metres, MetresPerSecond, Ratio } from '../../units/quantity.ts';
import type { HeightNode } from '../site/height-net.ts';
import type { PumpBehaviour } from './pump-behaviour.ts';

/** Index of a height node in the model. */
export type NodeIndex = number;

/** Head lost in a pipe at a flow, and the flow that a head drives through it. */
export interface LossLaw {
  headLoss(flow: CubicMetresPerSecond): Metres;
  flowFor(head: Metres): CubicMetresPerSecond;
}

/** A high place along a pipe: its ground node and the loss of the pipe from its start to there. */
export interface HighPlace {
  readonly node: NodeIndex;
  /** Horizontal distance from the start of the route. */
  readonly at: Metres;
  readonly loss: LossLaw;
  /** Whether the pipe rises to it, so that air gathers there. */
  readonly summit: boolean;
}

/** The pressure wave of the drive pipe. */
export interface DriveWave {
  readonly speed: MetresPerSecond;
  readonly bore: Metres;
  /** Velocity at which the waste valve shuts, by the model of the ram; null goes by what the pump takes. */
  readonly velocity: MetresPerSecond | null;
}

/** The least that a pump runs with, in a state of its valve: standard deviations from the likely limits. */
export interface RunLimits {
  leastFall(off: Ratio): Metres;
  /** Delivery head with the line full below which its waste valve does not fall open again, at a fall. */
  leastPushBack(fall: Metres, off: Ratio): Metres;
}

export interface SupplyModel {
  readonly loss: LossLaw;
  /** Standard deviation of the logarithm of the line's loss, from the tolerances of bore, roughness and length. */
  readonly lossDoubt: Ratio;
  readonly highPlaces: readonly HighPlace[];
}

export interface DestinationModel {
  readonly id: PointId;
  readonly route: RouteId | null;
  readonly node: NodeIndex;
  /** Outlet of the delivery pipe above ground. */
  readonly outletHeight: Metres;
  /** Null until the delivery line is drawn. */
  readonly loss: LossLaw | null;
  /** Standard deviation of the logarithm of the line's loss, from the tolerances of bore, roughness and length. */
  readonly lossDoubt: Ratio;
  readonly highPlaces: readonly HighPlace[];
  readonly vented: boolean;
  /** A tank that is kept: with others that are, it shares the pump's water. */
  readonly kept: boolean;
}

/** A line from the source to a trough: the water in it is the pump's no more. */
export interface SourceDraw {
  /** What the animals there drink in the mean of a day; 0 while nobody has said which animals there are. */
  readonly mean: CubicMetresPerSecond;
  /** Whether its valve ever opens: not where nobody drinks. */
  readonly opens: boolean;
}

export interface FeedModel {
  readonly id: PointId;
  readonly route: RouteId;
  readonly from: NodeIndex;
  readonly fromHeight: Metres;
  readonly node: NodeIndex;
  readonly valveHeight: Metres;
  /** The most that the open valve lets through. */
  readonly valveFlow: CubicMetresPerSecond;
  /** What a line from the source takes from the pump; null for a line from a tank. */
  readonly draw: SourceDraw | null;
  readonly loss: LossLaw;
  /** Standard deviation of the logarithm of the line's loss, from the tolerances of bore, roughness and length. */
  readonly lossDoubt: Ratio;
  readonly highPlaces: readonly HighPlace[];
  /** Those of the high places that the pipe rises to: air gathers there. */
  readonly summits: readonly HighPlace[];
}

/** The system as numbers: everything a run needs, prepared once for a plan on its ground. */
export interface SystemModel {
  readonly nodes: readonly HeightNode[];
  readonly source: NodeIndex;
  readonly waterLevel: Metres;
  readonly pump: NodeIndex;
  readonly wasteValveHeight: Metres;
  readonly standpipe: {
    readonly node: NodeIndex;
    readonly inletHeight: Metres;
    readonly topHeight: Metres;
    /** Water needed above the inlet so that it draws no air. */
    readonly submergence: Metres;
  } | null;
  readonly supply: SupplyModel | null;
  /** The pump, or several side by side as one. */
  readonly behaviour: PumpBehaviour;
  /** What lets the pump beat at all. */
  readonly limits: RunLimits;
  /** Null until the drive pipe is drawn, and for a ram by its parts, whose efficiency knows its own reach. */
  readonly wave: DriveWave | null;
  /** Pressure head at which a full column breaks at a crest, below 0, m: vapour, air and the height above the sea. */
  readonly columnBreaks: Metres;
  /** One of them, and how many there are. */
  readonly each: PumpBehaviour;
  readonly pumps: number;
  /** Delivery head at which the pump's efficiency is shown: the highest drawn destination that is not set aside, m. */
  readonly designHead: Metres;
  /** What may be taken of the source; null when nothing was read. */
  readonly available: { readonly flow: CubicMetresPerSecond; readonly deviation: CubicMetresPerSecond } | null;
  readonly destinations: readonly DestinationModel[];
  readonly feeds: readonly FeedModel[];
  /** Troughs, by their node, for the level below the source. */
  readonly troughs: readonly { readonly id: PointId; readonly node: NodeIndex; readonly valveHeight: Metres }[];
}

/** Stands for a flow that nothing bounds: no pump, no reading of the source and no supply line. */
export const UNBOUNDED: CubicMetresPerSecond = Number.MAX_VALUE;

/** One state of what is not known for sure. */
export interface SystemState {
  /** Ground at each node, m. */
  readonly ground: Float64Array;
  /** What may be taken of the source, m³/s. */
  available: CubicMetresPerSecond;
  /** Standard deviations from the likely efficiency. */
  efficiency: Ratio;
  /** Standard deviations from the likely loss of the supply line. */
  supplyLoss: Ratio;
  /** The same for every line behind the pump: no output depends on two of them, so one number serves all. */
  lineLoss: Ratio;
  /** Standard deviations from what the pump's sheet or model says it takes. */
  intake: Ratio;
  /** Standard deviations from the likely rise of the drive pipe's pressure wave. */
  wave: Ratio;
  /** Standard deviations from the likely limits of the waste valve. */
  valve: Ratio;
}
