import { type LumpedRun, lumpedCycle, openFlow, type StopReason } from '../../ram/cycle/lumped-cycle.ts';
import type { Closing } from '../../ram/cycle/ram-system.ts';
import { weightForRatio } from '../../ram/cycle/valve-setting.ts';
import { type SettledRun, settledRun, settlingShare } from '../../ram/transient/settled-run.ts';
import type { TransientStop } from '../../ram/transient/transient-run.ts';
import { LITRE_M3, MINUTE_S } from '../../units/factor.ts';
import { type CycleFile, closingOf } from './cycle-file.ts';

/** What the `cycle` command answers; every number is finite, null where there is none. */
export interface CycleAnswer {
  readonly model: 'lumped' | 'transient';
  readonly runs: boolean;
  readonly stops_because: StopReason | TransientStop | null;
  readonly beats_per_min: number | null;
  readonly drive_flow_L_per_min: number | null;
  readonly delivery_L_per_min: number | null;
  readonly efficiency_dAubuisson: number | null;
  readonly efficiency_Rankine: number | null;
  readonly highest_head_m: number | null;
  readonly shut_velocity_m_s: number | null;
  readonly limits: LimitsAnswer | null;
  /** Grid of the simulation and whether it stood still there; null for the closed form. */
  readonly grid: GridAnswer | null;
  readonly note: string;
}

export interface GridAnswer {
  readonly reaches: number;
  readonly settled: boolean;
  /** By how much the delivery moved at the last doubling of the reaches, as a share. */
  readonly moved: number;
  readonly carried_by_vapour: boolean;
}

export interface LimitsAnswer {
  readonly highest_delivery_head_m: number;
  readonly reopening_unlikely_below_m: number;
  readonly reopening_sure_above_m: number | null;
  readonly least_fall_m: number;
  readonly blocked_peak_m: number;
}

/** Said with every modelled efficiency. */
export const MODEL_NOTE =
  'Not validated against a measured ram: leakage, wear, give of the body and snifter air are left out, so it reads optimistic.';

const L_PER_MIN = MINUTE_S / LITRE_M3;

export function lumpedAnswer(file: CycleFile): CycleAnswer {
  const run = lumpedCycle(file.ram, file, closingOf(file));
  const { cycle } = run;
  if (cycle === null) return stopped(file, run);
  return {
    model: 'lumped',
    runs: true,
    stops_because: null,
    beats_per_min: MINUTE_S / cycle.beat,
    drive_flow_L_per_min: cycle.driveFlow * L_PER_MIN,
    delivery_L_per_min: cycle.delivery * L_PER_MIN,
    efficiency_dAubuisson: cycle.dAubuisson,
    efficiency_Rankine: cycle.rankine,
    highest_head_m: cycle.peakHead,
    shut_velocity_m_s: cycle.shutVelocity,
    limits: limitsOf(run),
    grid: null,
    note: MODEL_NOTE,
  };
}

/** A ram that does not run still has an answer: what it does instead, as far as the model knows. */
function stopped(file: CycleFile, run: LumpedRun): CycleAnswer {
  const stuck = run.stops === 'waste-valve-sticks-open' || run.stops === 'waste-valve-stays-shut';
  const pours = run.stops === 'waste-valve-sticks-open' ? openFlow(file.ram, file.fall) * L_PER_MIN : 0;
  return {
    model: 'lumped',
    runs: false,
    stops_because: run.stops,
    beats_per_min: stuck ? 0 : null,
    drive_flow_L_per_min: stuck ? pours : null,
    delivery_L_per_min: run.stops === 'no-pump-needed' ? null : 0,
    efficiency_dAubuisson: null,
    efficiency_Rankine: null,
    highest_head_m: null,
    shut_velocity_m_s: null,
    limits: limitsOf(run),
    grid: null,
    note: MODEL_NOTE,
  };
}

/** The same by simulation; the lumped model still tells the limits and whether a pump is needed at all. */
export function transientAnswer(file: CycleFile): CycleAnswer {
  const lumped = lumpedCycle(file.ram, file, closingOf(file));
  if (lumped.stops === 'no-pump-needed') return { ...stopped(file, lumped), model: 'transient' };
  const closing = transientClosing(file);
  if (closing === null) return { ...stopped(file, { ...lumped, stops: 'waste-valve-too-slow' }), model: 'transient' };
  const { ram, fall, deliveryHead, airChamber } = file;
  const run = settledRun({
    ram,
    fall,
    deliveryHead,
    closing,
    airChamber,
    standpipe: null,
    vapourHead: SEA_LEVEL_VAPOUR_HEAD,
  });
  return measured(run, limitsOf(lumped));
}

/** Head at which water at 10 °C boils at sea level, m: (101.325 − 1.228) kPa/(999.7 kg/m³ g). Source: IAPWS-95, ISO 2533. */
const SEA_LEVEL_VAPOUR_HEAD = -10.21;

/** A closure ratio with a stroke is the motion of the valve whose weight gives that ratio; null when none does. */
function transientClosing(file: CycleFile): Closing | null {
  const { ram, closureRatio, stroke, closingTime } = file;
  if (closureRatio === null || stroke === null || closingTime !== null) return closingOf(file);
  const weightHead = weightForRatio(ram, file, closureRatio, stroke);
  return weightHead === null ? null : { kind: 'stroke', weightHead, stroke };
}

function measured(run: SettledRun, limits: LimitsAnswer | null): CycleAnswer {
  const flows = run.driveFlow > 0 && run.delivery > 0;
  return {
    model: 'transient',
    runs: run.stops === null,
    stops_because: run.stops,
    beats_per_min: run.beatsPerMinute,
    drive_flow_L_per_min: run.driveFlow * L_PER_MIN,
    delivery_L_per_min: run.delivery * L_PER_MIN,
    efficiency_dAubuisson: flows ? run.dAubuisson : null,
    efficiency_Rankine: flows ? run.rankine : null,
    highest_head_m: run.highestHead,
    shut_velocity_m_s: run.shutVelocity,
    limits,
    grid: { reaches: run.reaches, settled: run.settled, moved: run.moved, carried_by_vapour: run.carriedByVapour },
    note: [MODEL_NOTE, ...gridNotes(run)].join(' '),
  };
}

const PERCENT = 100;

function gridNotes(run: SettledRun): readonly string[] {
  const notes: string[] = [];
  if (!run.settled) {
    const by = `${Math.round(run.moved * PERCENT)} %`;
    const limit = `${settlingShare * PERCENT} %`;
    notes.push(
      `The simulation has not settled: twice the reaches (${run.reaches}) still moved the delivery by ${by}, expected below ${limit}.`,
    );
  }
  if (run.carriedByVapour) {
    notes.push(
      'The result hangs on water boiling in the drive pipe, which a real ram meets with air in it: do not lean on it.',
    );
  }
  return notes;
}

function limitsOf(run: LumpedRun): LimitsAnswer | null {
  if (run.limits === null) return null;
  return {
    highest_delivery_head_m: run.limits.highestHead,
    reopening_unlikely_below_m: run.limits.reopening.unlikelyBelow,
    reopening_sure_above_m: run.limits.reopening.sureAbove,
    least_fall_m: run.limits.leastFall,
    blocked_peak_m: run.limits.blockedPeak,
  };
}
