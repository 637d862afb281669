import type { Position } from '../../geodesy/position.ts';
import type {
  Celsius,
  CubicMetres,
  CubicMetresPerSecond,
  Metres,
  Pascals,
  Ratio,
  Seconds,
} from '../../units/quantity.ts';

/**
 * A plan: what the user drew and said, frozen, in SI units. Nothing in it is computed.
 *
 * A height at a point is measured upwards from the ground there. `plusMinus` is the half width of a 95 % interval.
 */
export interface Plan {
  readonly name: string;
  readonly units: UnitSystem;
  readonly waterTemperature: Celsius;
  readonly points: readonly PlanPoint[];
  readonly routes: readonly PlanRoute[];
  /** What no line may cross: a house, a road, a neighbour's land, wet ground. */
  readonly areas: readonly PlanArea[];
  readonly pipes: readonly PlanPipe[];
  readonly pump: PumpChoice | null;
  readonly yieldReadings: readonly YieldReading[];
  /** What the source gives in the dry season as a share of what was read; null until the user says. */
  readonly dryShare: Ratio | null;
  /** ± of that share, 95 %; absent: as a guess is known. */
  readonly dryShareDoubt?: Ratio;
  /** Share of the source's water that stays in the stream; null until the user says. */
  readonly leftInStream: Ratio | null;
  readonly herd: readonly HerdGroup[];
  /** January to December; empty until the user says how source and weather go through the year. */
  readonly year: readonly MonthOfYear[];
  readonly measurements: readonly Measurement[];
  /** Readings of the pump when it ran well, the oldest first; absent without any. */
  readonly records?: readonly RunRecord[];
  readonly materials: MaterialList;
  /** Map tiles from an address that the user typed; null for none. */
  readonly mapTiles: MapTiles | null;
  /** How sure a limit must be before it is said to hold (or to fail): 0.5 to 0.999, usually 0.9. */
  readonly confidence: Ratio;
  readonly terrain: TerrainReference | null;
  /** What the plan was answered when it was last saved; the one thing in it that was computed, for reading only. */
  readonly lastAnswer?: KeptAnswer;
}

/** An answer in the words in which it was given. Nothing is reckoned from it. */
export interface KeptAnswer {
  /** Day on which it was given, as 2026-05-31. */
  readonly on: string;
  readonly verdict: 'holds' | 'measure' | 'fails' | null;
  /** The elevation files that it rests on. */
  readonly files: readonly string[];
  readonly sentences: readonly string[];
}

export type UnitSystem = 'metric' | 'us';
export type PointId = string;
export type RouteId = string;
export type AreaId = string;
export type PipeId = string;

interface PointBase {
  readonly id: PointId;
  readonly name: string;
  readonly position: Position;
  readonly note: string;
}

export interface SourcePoint extends PointBase {
  readonly role: 'source';
  /** Water surface above ground; negative when the water stands below the bank. */
  readonly waterLevel: Metres;
  /** Water held above the outlet of the spring box; 0 for none. */
  readonly storage: CubicMetres;
}

export interface StandpipePoint extends PointBase {
  readonly role: 'standpipe';
  /** Middle of the drive pipe's inlet above ground. */
  readonly inletHeight: Metres;
  readonly topHeight: Metres;
  readonly bore: Metres;
}

export interface PumpPoint extends PointBase {
  readonly role: 'pump';
  /** Outlet of the waste valve above ground; negative in a pit. */
  readonly wasteValveHeight: Metres;
}

export interface TankPoint extends PointBase {
  readonly role: 'tank';
  /** Where the delivery pipe discharges, above ground. */
  readonly inletHeight: Metres;
  /** Where the gravity line leaves, above ground. */
  readonly outletHeight: Metres;
  readonly volume: CubicMetres;
  /** A candidate is compared with the others; one is kept; others are set aside but not lost. */
  readonly standing: 'candidate' | 'kept' | 'set-aside';
}

export interface TroughPoint extends PointBase {
  readonly role: 'trough';
  /** Outlet of the float valve above ground. */
  readonly valveHeight: Metres;
  readonly volume: CubicMetres;
  /** Share of the herd that drinks here; null for an equal share with the other troughs of the same tank or source. */
  readonly herdShare: Ratio | null;
  /** The most that the open float valve, or a valve throttled before it, lets through; null for whatever the line brings. */
  readonly valveFlow: CubicMetresPerSecond | null;
}

/** An area on the map that no line may cross but at its gates, and that nothing proposed crosses. */
export interface PlanArea {
  readonly id: AreaId;
  readonly name: string;
  readonly note: string;
  /** Its outline without the first corner again at the end; at least three corners. */
  readonly outline: readonly Position[];
  /** Places at which it may be crossed: a culvert, a gate. */
  readonly gates: readonly Position[];
}

export type PlanPoint = SourcePoint | StandpipePoint | PumpPoint | TankPoint | TroughPoint;
export type PointRole = PlanPoint['role'];

/**
 * supply: source → standpipe. drive: standpipe (or source) → pump. delivery: pump → tank (or trough).
 * gravity: tank (or source) → trough.
 */
export type RouteRole = 'supply' | 'drive' | 'delivery' | 'gravity';

export interface PlanRoute {
  readonly id: RouteId;
  readonly role: RouteRole;
  readonly name: string;
  readonly from: PointId;
  readonly to: PointId;
  /** Drawn line with both ends, at least two; its ends are its points' positions. */
  readonly vertices: readonly Position[];
  readonly pipe: PipeId;
  readonly fittings: readonly FittingCount[];
  /** Whether the high points between the ends have a vent that lets air in and out. */
  readonly summits: 'closed' | 'vented';
  /** How deep the pipe is dug in on its whole length; absent for a shallow trench. */
  readonly trenchDepth?: Metres;
  /** Pressure at which a relief valve at the start of a delivery line opens; absent without one. */
  readonly relief?: Pascals;
  readonly note: string;
}

export interface FittingCount {
  /** Row of the handbook's loss coefficients, such as `elbow-90-threaded`. */
  readonly fitting: string;
  readonly count: number;
}

/** A pipe of the handbook by its row, or one the user describes. */
export type PlanPipe =
  | { readonly id: PipeId; readonly kind: 'row'; readonly row: string }
  | {
      readonly id: PipeId;
      readonly kind: 'own';
      readonly label: string;
      readonly material: PipeMaterial;
      readonly bore: Metres;
      readonly wall: Metres;
      readonly roughness: Metres;
      /** Rated pressure at the rating's own temperature; null when unknown. */
      readonly rating: Pascals | null;
    };

export type PipeMaterial = 'steel' | 'copper' | 'pvc' | 'pe';

export type PumpChoice = PumpSheet | PhysicalRam;

/** A pump as its sheet describes it, typed in by the user. */
export interface PumpSheet {
  readonly kind: 'sheet';
  readonly label: string;
  /** Equal pumps side by side, each on a drive pipe of its own, with one delivery line; the figures are those of one. */
  readonly count: number;
  readonly driveBore: Metres;
  readonly intakeLeast: CubicMetresPerSecond;
  readonly intakeMost: CubicMetresPerSecond;
  /** What the waste valve is set to take; null lets the planner set the most that source, line and pump allow. */
  readonly intakeSet: CubicMetresPerSecond | null;
  /** D'Aubuisson efficiency, 10th, 50th and 90th percentile; null for the planning band. */
  readonly efficiency: { readonly low: Ratio; readonly likely: Ratio; readonly high: Ratio } | null;
  /** Likely efficiency at heads over the fall, in rising order of `headOverFall`; comes before `efficiency` where given. */
  readonly efficiencyCurve: readonly CurvePoint[];
  readonly leastDeliveryHead: Metres | null;
  readonly measured: MeasuredRun | null;
  /** Further runs of it; absent for none. */
  readonly moreRuns?: readonly MeasuredRun[];
}

export interface CurvePoint {
  readonly headOverFall: Ratio;
  readonly efficiency: Ratio;
}

/** A ram described by its parts; the planner finds a waste valve setting. */
export interface PhysicalRam {
  readonly kind: 'ram';
  readonly label: string;
  /** As of a sheet. */
  readonly count: number;
  readonly driveBore: Metres;
  readonly wasteValveLoss: Ratio;
  readonly checkValveLoss: Ratio;
  /** Head that holds the waste valve open at rest (its weight or spring); null lets the planner set it. */
  readonly valveWeightHead: Metres | null;
  readonly valveStroke: Metres;
  readonly checkLag: Seconds;
  readonly airChamber: CubicMetres;
  readonly measured: MeasuredRun | null;
  /** Further runs of it; absent for none. */
  readonly moreRuns?: readonly MeasuredRun[];
}

/** What a pump of this kind was seen to do, for calibration. */
export interface MeasuredRun {
  readonly driveFlow: CubicMetresPerSecond;
  readonly delivery: CubicMetresPerSecond;
  readonly fall: Metres;
  readonly deliveryHead: Metres;
  /** ± (95 %) of the efficiency that it shows, as a share of it; absent: the usual one. */
  readonly plusMinus?: Ratio;
}

/** How much water the source gives: fillings of a container timed by a watch, or a figure the user states. */
export type YieldReading =
  | {
      readonly kind: 'timed';
      readonly volume: CubicMetres;
      readonly volumePlusMinus: CubicMetres;
      readonly times: readonly Seconds[];
    }
  | { readonly kind: 'stated'; readonly flow: CubicMetresPerSecond; readonly plusMinus: CubicMetresPerSecond };

/** Animals of one kind, by a row of the handbook or by a need the user states, in m³ a day and head. */
export type HerdGroup =
  | { readonly kind: 'row'; readonly row: string; readonly count: number }
  | { readonly kind: 'own'; readonly label: string; readonly needPerDay: CubicMetres; readonly count: number };

/** One month as the user knows it. */
export interface MonthOfYear {
  /** Which figure of the herd's need holds. */
  readonly season: 'winter' | 'summer';
  /** For needs that go by temperature; null takes the season's. */
  readonly airTemperature: Celsius | null;
  /** What the source gives as a share of what was read; null for all of it. */
  readonly sourceShare: Ratio | null;
}

/** How the user buys pipe and fittings: their own prices, in their own currency. */
export interface MaterialList {
  readonly currency: string;
  /** What is bought beyond the measured length, as a share of it. */
  readonly allowance: Ratio;
  readonly prices: readonly Price[];
}

export interface Price {
  /** A pipe row, a fitting row, or the user's own words. */
  readonly item: string;
  readonly unit: 'metre' | 'piece';
  readonly price: number;
  /** Length of a coil or stick; null when it is cut to length. */
  readonly pack: Metres | null;
}

export interface MapTiles {
  readonly address: string;
  readonly attribution: string;
}

/** What its owner says of a reading that looks wrong. */
export interface ReadingStanding {
  /** Kept: it was looked at and is right. Set aside: it does not count. Absent: nothing was said. */
  readonly standing?: 'kept' | 'set-aside';
}

/** A level taken on site, ground to ground; it is weighed together with what the DEM says and with the other levels. */
export type Measurement = ReadingStanding & LevelReading;

type LevelReading =
  | {
      readonly kind: 'height';
      readonly point: PointId;
      readonly height: Metres;
      readonly plusMinus: Metres;
      /** The survey that it belongs to, with a zero of its own; absent for the height datum itself. */
      readonly survey?: string;
    }
  | {
      readonly kind: 'difference';
      readonly from: PointId;
      readonly to: PointId;
      /** Ground at `to` minus ground at `from`; negative when `to` lies lower. */
      readonly rise: Metres;
      readonly plusMinus: Metres;
    };

/** What was read at the pump when it ran well; null for what was not. Heads and levels over the waste valve's outlet. */
export interface RunRecord {
  /** As in 2026-05-14. */
  readonly date: string;
  readonly by: string;
  /** Water at the drive pipe's inlet. */
  readonly level: Metres | null;
  readonly beatsPerMinute: number | null;
  readonly waste: CubicMetresPerSecond | null;
  readonly delivery: CubicMetresPerSecond | null;
  readonly deliveryReadAt: 'pump' | 'tank';
  readonly gaugeRest: Metres | null;
  readonly gaugeRunning: Metres | null;
  readonly gaugeSwing: Metres | null;
  /** Weight of the waste valve with what is screwed on, kg. */
  readonly valveWeight: number | null;
  readonly valveStroke: Metres | null;
  readonly note: string;
}

/** Which DEM the plan was made on and how far its heights are trusted. */
export interface TerrainReference {
  /** Names of the files; a file that was opened by its address, by that address. */
  readonly files: readonly string[];
  /** Accuracy class chosen by the user; null infers it from the file. */
  readonly accuracy: string | null;
  /** Constants typed in instead of those of the class; null takes the class as it is. */
  readonly constants: HeightConstants | null;
}

/** Standard deviations of a DEM's heights by their reach, and where a drawn point really is, in m. */
export interface HeightConstants {
  readonly nugget: Metres;
  readonly near: Metres;
  readonly nearRange: Metres;
  readonly far: Metres;
  readonly farRange: Metres;
  readonly placement: Metres;
  /** How many times the smoothing that shows the true one may be, as `HeightAccuracy` has it; absent: that of the class. */
  readonly smoothingDoubt?: Ratio;
}
