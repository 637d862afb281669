import type { CubicMetresPerSecond, Metres, MetresPerSecond, Ratio, Seconds } from '../../units/quantity.ts';
import { type DriveLengths, driveLengths } from './drive-length.ts';
import type { DriveSize } from './drive-sizes.ts';
import { type Cycle, lumpedCycle, type StopReason } from './lumped-cycle.ts';
import type { Heads, RamSystem } from './ram-system.ts';
import { closureRange } from './valve-setting.ts';

/** What a size is asked against. */
export interface SizingQuestion extends Heads {
  /** What source and supply line bring at the running level. */
  readonly available: CubicMetresPerSecond;
  /** Length of the drive pipe; null takes the usual length of each size. */
  readonly driveLength: Metres | null;
  readonly entranceLoss: Ratio;
  readonly bendLoss: Ratio;
  readonly wasteValveLoss: Ratio;
  readonly checkValveLoss: Ratio;
  readonly checkLag: Seconds;
  /** Modelled efficiency times this; 1 without a measured run. */
  readonly yieldFactor: Ratio;
  readonly sizes: readonly DriveSize[];
  readonly waveSpeed: (size: DriveSize) => MetresPerSecond;
  readonly darcyFactor: (size: DriveSize, velocity: MetresPerSecond) => Ratio;
}

export type SizeVerdict =
  /** Takes what is there at a setting within its range. */
  | 'suits'
  /** Takes less than is there even at its heaviest setting: works, and leaves water. */
  | 'leaves-water'
  /** Takes more than is there even at its lightest setting. */
  | 'needs-more-water'
  | 'does-not-run';

export interface SizeRow {
  readonly size: DriveSize;
  readonly length: Metres;
  readonly lengths: DriveLengths;
  /** Whether the length keeps both rules; a warning, not a verdict. */
  readonly lengthKeepsRules: boolean;
  readonly verdict: SizeVerdict;
  readonly stops: StopReason | null;
  /** Intake at the lightest and heaviest setting; null when it does not run. */
  readonly intake: { readonly least: CubicMetresPerSecond; readonly most: CubicMetresPerSecond } | null;
  /** The run at the setting that takes most of what is there; null when it does not run or needs more water. */
  readonly run: SizedRun | null;
  /** Each of two side by side, at the setting that takes most of half of what is there; null as for `run`. */
  readonly halfRun: SizedRun | null;
}

export interface SizedRun {
  readonly closureRatio: Ratio;
  readonly driveFlow: CubicMetresPerSecond;
  readonly delivery: CubicMetresPerSecond;
  readonly efficiency: Ratio;
  readonly beatsPerMinute: number;
}

export interface SizeTable {
  readonly rows: readonly SizeRow[];
  readonly answer: SizeAnswer;
}

export type SizeAnswer =
  | { readonly kind: 'one'; readonly size: DriveSize; readonly delivery: CubicMetresPerSecond }
  | { readonly kind: 'two-side-by-side'; readonly size: DriveSize; readonly delivery: CubicMetresPerSecond }
  | { readonly kind: 'none'; readonly because: 'too-little-water' | StopReason }
  | { readonly kind: 'no-pump-needed' };

/** Settings looked at in a size's range, as shares of the terminal velocity. */
const settingsTried = 55;
/** Velocity at which the friction of a size is first taken, then once more at the velocity found. */
const firstVelocity: MetresPerSecond = 1;
/** A second pump is worth its price when it brings this much more than one. Common practice, no source. */
const worthASecond = 1.25;
/** A size that brings this share of the best is preferred to a larger one. Common practice, no source. */
const nearly = 0.9;

/** One row a size in the order given, smallest first, and which of them this source should have. */
export function sizeTable(question: SizingQuestion): SizeTable {
  if (question.deliveryHead <= question.fall) {
    return { rows: [], answer: { kind: 'no-pump-needed' } };
  }
  const rows = question.sizes.map((size) => sizeRow(question, size));
  return { rows, answer: sizeAnswer(rows) };
}

function sizeRow(question: SizingQuestion, size: DriveSize): SizeRow {
  const lengths = driveLengths(size.bore, question.fall);
  const length = question.driveLength ?? lengths.usual;
  const both = lengths.both;
  const base = {
    size,
    length,
    lengths,
    lengthKeepsRules: both !== null && length >= both.least && length <= both.most,
  };
  const found = settings(question, systemOf(question, size, length));
  const lightest = found.runs[0];
  const heaviest = found.runs.at(-1);
  if (lightest === undefined || heaviest === undefined) {
    return { ...base, verdict: 'does-not-run', stops: found.stops, intake: null, run: null, halfRun: null };
  }
  const intake = { least: lightest.cycle.driveFlow, most: heaviest.cycle.driveFlow };
  if (intake.least > question.available) {
    return { ...base, verdict: 'needs-more-water', stops: null, intake, run: null, halfRun: null };
  }
  const within = (most: CubicMetresPerSecond) => found.runs.findLast((run) => run.cycle.driveFlow <= most);
  const best = within(question.available) ?? lightest;
  const half = within(question.available / 2);
  const verdict = intake.most < question.available ? 'leaves-water' : 'suits';
  const halfRun = half === undefined ? null : sizedRun(question, half);
  return { ...base, verdict, stops: null, intake, run: sizedRun(question, best), halfRun };
}

interface SettingRun {
  readonly share: Ratio;
  readonly cycle: Cycle;
}

function settings(question: SizingQuestion, ram: RamSystem): { runs: SettingRun[]; stops: StopReason | null } {
  const runs: SettingRun[] = [];
  let stops: StopReason | null = null;
  for (let i = 0; i <= settingsTried; i += 1) {
    const share = closureRange.least + ((closureRange.most - closureRange.least) * i) / settingsTried;
    const run = lumpedCycle(ram, question, { kind: 'share', closureRatio: share, closingTime: 0 });
    if (run.cycle !== null) runs.push({ share, cycle: run.cycle });
    else stops = run.stops;
  }
  return { runs, stops };
}

function systemOf(question: SizingQuestion, size: DriveSize, length: Metres): RamSystem {
  const system = {
    bore: size.bore,
    length,
    waveSpeed: question.waveSpeed(size),
    darcyFactor: question.darcyFactor(size, firstVelocity),
    entranceLoss: question.entranceLoss,
    bendLoss: question.bendLoss,
    wasteValveLoss: question.wasteValveLoss,
    checkValveLoss: question.checkValveLoss,
    checkLag: question.checkLag,
  };
  const first = lumpedCycle(system, question, middle);
  if (first.cycle === null) return system;
  return { ...system, darcyFactor: question.darcyFactor(size, first.cycle.shutVelocity) };
}

const middle = { kind: 'share', closureRatio: (closureRange.least + closureRange.most) / 2, closingTime: 0 } as const;

const secondsPerMinute = 60;

function sizedRun(question: SizingQuestion, best: SettingRun): SizedRun {
  const efficiency = Math.min(1, best.cycle.dAubuisson * question.yieldFactor);
  return {
    closureRatio: best.share,
    driveFlow: best.cycle.driveFlow,
    delivery: (efficiency * best.cycle.driveFlow * question.fall) / question.deliveryHead,
    efficiency,
    beatsPerMinute: secondsPerMinute / best.cycle.beat,
  };
}

/** Which of the sizes a source should have, by what each delivers. */
export function sizeAnswer(rows: readonly SizeRow[]): SizeAnswer {
  const one = smallestEnough(rows, (row) => row.run?.delivery ?? 0);
  if (one === null) return { kind: 'none', because: whyNone(rows) };
  const two = smallestEnough(rows, (row) => 2 * (row.halfRun?.delivery ?? 0));
  if (two !== null && two.delivery > one.delivery * worthASecond) return { kind: 'two-side-by-side', ...two };
  return { kind: 'one', ...one };
}

function whyNone(rows: readonly SizeRow[]): 'too-little-water' | StopReason {
  if (rows.some((row) => row.verdict === 'needs-more-water')) return 'too-little-water';
  return rows.find((row) => row.stops !== null)?.stops ?? 'too-little-water';
}

interface Choice {
  readonly size: DriveSize;
  readonly delivery: CubicMetresPerSecond;
}

/** The first, smallest size that delivers nearly as much as the best; null when none delivers. */
function smallestEnough(rows: readonly SizeRow[], deliveryOf: (row: SizeRow) => CubicMetresPerSecond): Choice | null {
  const most = Math.max(0, ...rows.map(deliveryOf));
  const row = rows.find((each) => deliveryOf(each) >= nearly * most);
  return row === undefined || most === 0 ? null : { size: row.size, delivery: deliveryOf(row) };
}
