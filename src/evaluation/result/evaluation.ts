import type { PointId, PointRole, RouteId, RouteRole } from '../../plan/model/plan.ts';
import type { QuantityKind } from '../../units/kind.ts';
import type {
  CubicMetres,
  CubicMetresPerSecond,
  Metres,
  MetresPerSecond,
  Pascals,
  Ratio,
} from '../../units/quantity.ts';
import type { Turning } from '../site/extrema.ts';
import type { Estimate, Verdict } from '../statistics/estimate.ts';
import type { LevelCourse } from './standpipe-level.ts';

/** Everything the planner knows about a plan on its ground: numbers with their spread, findings as codes. SI throughout. */
export interface Evaluation {
  readonly points: readonly PointResult[];
  readonly lines: readonly LineResult[];
  readonly source: SourceResult;
  readonly standpipe: StandpipeResult | null;
  readonly pump: PumpResult | null;
  readonly tanks: readonly TankResult[];
  readonly troughs: readonly TroughResult[];
  /** A year at every tank with a line; null until the plan says how the year goes. */
  readonly years: readonly TankYear[] | null;
  readonly findings: readonly Finding[];
  readonly measureFirst: readonly MeasureFirst[];
  /** The worst verdict of what keeps the system running; null when there is nothing to judge yet. */
  readonly verdict: Verdict | null;
  readonly answer: Answer;
}

/** What state a plan is in: one sentence each. */
export type AnswerState =
  /** Something that any answer needs is not drawn or said yet. */
  | 'incomplete'
  /** The elevation file has no height where one is needed. */
  | 'no-ground'
  /** Every outlet lies below the source: water runs there by itself. */
  | 'no-pump-needed'
  /** Gravity lines alone. */
  | 'gravity'
  /** It runs for sure, may run, does not run. */
  | 'runs'
  | 'may-run'
  | 'stops'
  /** It does not run, and its waste valve stays open and pours the water away. */
  | 'pours';

/** What is missing before anything can be answered. */
export type MissingPart = 'source' | 'pump' | 'drive' | 'supply' | 'destination' | 'delivery';

/** The three questions of an owner: does it run, how much arrives, what is to be measured first. */
export interface Answer {
  readonly state: AnswerState;
  /** What is missing, in the order in which it is drawn; empty for every state but `incomplete`. */
  readonly missing: readonly MissingPart[];
  readonly runs: {
    /** Null where there is nothing to run: nothing drawn, or no pump needed. */
    readonly verdict: Verdict | null;
    readonly chance: Ratio | null;
    /** The finding that decides; null when nothing stands against it. */
    readonly because: Finding | null;
  };
  readonly arrives: {
    /** Where; null while no line leads anywhere. */
    readonly about: PointId | null;
    /** Against the need; null where no animals are named. */
    readonly verdict: Verdict | null;
    readonly chance: Ratio | null;
    /** m³ a day, all that keeps the pump from running in it. */
    readonly perDay: Estimate | null;
    /** m³ a day if what keeps it from running were mended. */
    readonly ifRunningPerDay: Estimate | null;
    readonly needPerDay: number | null;
    /** The finding that decides about the amount; null where it is enough. */
    readonly because: Finding | null;
  };
  /** Null when nothing needs measuring. */
  readonly first: MeasureFirst | null;
}

export interface PointResult {
  readonly id: PointId;
  readonly role: PointRole;
  /** Ground as used: the measured level where there is one, else the DEM's; null in a void. */
  readonly ground: Metres | null;
  readonly groundFrom: 'dem' | 'measured';
  /** Level that governs at this point (water surface, inlet, valve outlet); null without ground. */
  readonly level: Metres | null;
  /**
   * How much the DEM's cells lift (+) or lower (−) the ground here, from its own curvature: a note beside the height, never
   * added to it; 0 where the height was measured.
   */
  readonly smoothing: Metres;
}

/** Hydraulic state along a route at its working flow, a height a corner, in order; straight between. */
export interface GradeLine {
  readonly at: readonly Metres[];
  readonly head: readonly Metres[];
}

export interface LineResult {
  readonly id: RouteId;
  readonly role: RouteRole;
  readonly horizontal: Metres;
  readonly slope: Metres;
  readonly start: Metres | null;
  readonly end: Metres | null;
  readonly lowest: Metres | null;
  readonly highest: Metres | null;
  /** Total length without heights. */
  readonly void: Metres;
  readonly turnings: readonly Turning[];
  /** Flow the line carries when the system runs as planned; null when unknown. */
  readonly flow: CubicMetresPerSecond | null;
  readonly velocity: MetresPerSecond | null;
  readonly friction: Metres | null;
  /** Water line while running; null when unknown. */
  readonly running: GradeLine | null;
  /** Level of the water at rest; null when unknown. */
  readonly still: Metres | null;
  /** Highest pressure at rest, running and when blocked, each at its own worst place, Pa. */
  readonly pressure: { readonly still: Pascals; readonly running: Pascals; readonly blocked: Pascals } | null;
  /** Rating of the pipe at the plan's temperature; null when unknown. */
  readonly rating: Pascals | null;
}

export interface SourceResult {
  /** What the readings say; null when there are none. */
  readonly flow: Estimate | null;
  /** What may be taken after the dry season and the stream's share. */
  readonly available: Estimate | null;
  /**
   * What lines to troughs likely take of that beside the pump: in the mean of a day, and while their valves are open; null
   * without such a line.
   */
  readonly drawn: { readonly mean: CubicMetresPerSecond; readonly open: CubicMetresPerSecond } | null;
}

/** A stretch of the way from pump to source on which a standpipe can stand, as lengths of drive pipe from the pump. */
export interface PlaceStretch {
  readonly from: Metres;
  readonly to: Metres;
}

/** A place for the standpipe. */
export interface StandpipePlace {
  /** Length of drive pipe from the pump to there, along the ground. */
  readonly driveLength: Metres;
  readonly ground: Metres;
  /** How tall it must be there: to the water at the source and the freeboard above. */
  readonly height: Metres;
}

export interface StandpipePlaces {
  /** Lengths of drive pipe that its rules allow. */
  readonly rule: { readonly least: Metres; readonly most: Metres };
  readonly stretches: readonly PlaceStretch[];
  /** The place nearest to the usual length of drive pipe; null when there is none on this way. */
  readonly best: StandpipePlace | null;
  /**
   * By how much the best place keeps the rules: water over the inlet beyond its need (`cover`), or, where no place keeps
   * those of length, by how much the nearest misses them, below 0 (`length`).
   */
  readonly margin: Metres;
  readonly lacks: 'cover' | 'length';
}

/** How the standpipe stands and moves while the pump runs, and where else it could stand. */
export interface StandpipeResult {
  readonly id: PointId;
  readonly runningLevel: Estimate;
  /** Depth of water that the inlet needs over it so that no air goes in. */
  readonly submergence: Metres;
  /** Water over the inlet while running. */
  readonly overInlet: Estimate;
  /** Rise and fall of the level in a beat. */
  readonly swing: Metres;
  /** Overshoot of the level when the pump starts or stops. */
  readonly surge: Metres;
  /** The level over time when the pump takes what it is set to (or least needs), from full. */
  readonly course: LevelCourse;
  /** Where along the drawn way it could stand; null until supply line and drive pipe are drawn. */
  readonly places: StandpipePlaces | null;
}

export interface PumpResult {
  readonly fallAtRest: Estimate;
  /** By how much the DEM's cells make the fall look larger (+) or smaller (−): a note, not in the numbers. */
  readonly fallBias: Metres;
  readonly fall: Estimate;
  /** What the pump takes; null until either its sheet or the source's yield is known. */
  readonly driveFlow: Estimate | null;
  /** How many equal pumps take it, side by side. */
  readonly count: number;
  /** The most the supply line brings before the standpipe's inlet draws air; null without a supply line. */
  readonly supplyLimit: Estimate | null;
  /** What runs over the standpipe's top while the pump takes its water; null without a supply line. */
  readonly spill: Estimate | null;
  readonly efficiency: Estimate;
  /** How many measured runs of it are weighed in it. */
  readonly measuredRuns: number;
}

export interface TankResult {
  readonly id: PointId;
  /** Tank inlet above the waste valve's outlet. */
  readonly lift: Estimate;
  /** By how much the DEM's cells make the lift look larger (+) or smaller (−): a note, not in the numbers. */
  readonly liftBias: Metres;
  /** What the delivery line makes of it; null until it is drawn. */
  readonly line: DeliveryResult | null;
  /** What the pump must bring here for the animals that drink from it, m³ a day; null when the plan has no herd. */
  readonly demandPerDay: number | null;
  readonly storageDays: number | null;
  /** Null until a delivery line leads there. */
  readonly verdict: Verdict | null;
}

/** One month of a tank in a year that follows a year like it. Volumes in m³. */
export interface TankMonth {
  /** What arrives and what the herd wants, a day. */
  readonly deliveryPerDay: CubicMetres;
  readonly needPerDay: CubicMetres;
  readonly overflow: CubicMetres;
  readonly shortfall: CubicMetres;
  /** Days on which the herd gets less than it wants. */
  readonly daysShort: number;
  /** Least water in the tank at the end of a day. */
  readonly lowest: CubicMetres;
}

export interface TankYear {
  readonly id: PointId;
  readonly months: readonly TankMonth[];
  /** Days short in the whole year: likely, and when what arrives is at its 90th and 10th percentile all year. */
  readonly daysShort: Estimate;
}

export interface DeliveryResult {
  readonly route: RouteId;
  /** The place that governs above the waste valve's outlet. */
  readonly governingLift: Estimate;
  /** What governs: the outlet, or a summit at this distance from the start of the route. */
  readonly governedBy: 'outlet' | { readonly summit: Metres };
  /** Delivery head with friction over the running fall. */
  readonly liftOverFall: Estimate;
  readonly delivery: Estimate | null;
  /** m³ a day. */
  readonly deliveryPerDay: Estimate | null;
  /** What would arrive a day if the pump ran whatever keeps it from it. */
  readonly ifRunningPerDay: Estimate | null;
  /** Chance that the pump runs against this line. */
  readonly runs: Ratio;
  /** Head lost up to the place that governs. */
  readonly friction: Metres | null;
}

export interface TroughResult {
  readonly id: PointId;
  /** What is drunk here, m³ a day; null when the plan has no herd, or no line leads here. */
  readonly needPerDay: number | null;
  /** The gravity line's flow with the float valve open. */
  readonly flow: Estimate | null;
  /** Pressure head at the closed float valve, m. */
  readonly stillHead: Estimate | null;
  /** Source water level minus the float valve's outlet; positive: water runs there by itself. */
  readonly belowSource: Estimate | null;
}

/** What a finding bears on: whether it runs, how much arrives, safety of pipe and people, or good practice only. */
export type Bearing = 'running' | 'yield' | 'safety' | 'practice';

export interface Finding {
  readonly code: string;
  /** Id of the point or route it is about. */
  readonly about: string;
  readonly bears: Bearing;
  readonly verdict: Verdict;
  readonly value: Estimate | null;
  readonly limit: number | null;
  /** Whether the value must not fall below or not rise above the limit. */
  readonly side: 'at-least' | 'at-most';
  readonly quantity: QuantityKind;
  /** Chance that the limit holds, 0 to 1. */
  readonly chance: Ratio;
  /** Title of the source, or `common practice, no source`. */
  readonly source: string;
  /** Numbers and names the sentence needs. */
  readonly facts: Readonly<Record<string, number | string>>;
}

export interface MeasureFirst {
  /** Stable name of the quantity, such as `fall` or `source-yield`. */
  readonly quantity: string;
  readonly about: string;
  /** Findings it would settle. */
  readonly settles: readonly string[];
  /** Share of the delivery's spread that comes from it, 0 to 1. */
  readonly share: Ratio;
  /** What is thought now, in the SI unit of the quantity; null when nothing is. */
  readonly expected: Estimate | null;
  /** ± to aim for (95 %), in the SI unit of the quantity; null when any reading helps. */
  readonly aim: number | null;
  readonly unit: QuantityKind;
}
