import type { EfficiencyBand } from '../../handbook/ram-efficiency.ts';
import type { MeasuredRun, PumpChoice } from '../../plan/model/plan.ts';
import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import { Z90, Z975 } from '../statistics/normal.ts';

/** Where a pump works: the flow it is given, the fall and the delivery head. */
export interface WorkingPoint {
  readonly flow: CubicMetresPerSecond;
  readonly fall: Metres;
  readonly head: Metres;
}

/** Why a measured run cannot be one of this pump. */
export type RunFault = 'intake' | 'head' | 'efficiency' | 'model';

/**
 * ± (95 %) of the efficiency that a single run shows, as a share of it: readings by bucket, wear, another setting. Taken where
 * the run names none. Common practice, no source.
 */
const USUAL_PLUS_MINUS: Ratio = 0.15;

/** What a run says of another point grows less sure by so much for each e-fold in flow, fall or lift over fall. Common practice, no source. */
const DOUBT_PER_FOLD: Ratio = 0.15;

/** A run that took so much more than the pump can is one of another pump. Common practice, no source. */
const INTAKE_ROOM: Ratio = 1.1;

/** No published ram reached more; a run above it was misread. Common practice, no source. */
const BEST_EFFICIENCY: Ratio = 0.92;

/** D'Aubuisson efficiency of a run: η = q h / (Q H). */
export const runEfficiency = ({ driveFlow, delivery, fall, deliveryHead }: MeasuredRun): Ratio =>
  (delivery * deliveryHead) / (driveFlow * fall);

/** All runs of a pump, the first one first. */
export const runsOf = (pump: PumpChoice): readonly MeasuredRun[] => [
  ...(pump.measured === null ? [] : [pump.measured]),
  ...(pump.moreRuns ?? []),
];

interface FittedRun {
  readonly at: WorkingPoint;
  /** Logarithm of what it shows over what was thought. */
  readonly over: number;
  readonly variance: number;
}

/** What is thought of a pump once its measured runs are weighed. */
export interface Calibrated {
  /** Its band at a point; the very one that was given where no run fits. */
  band(at: WorkingPoint): EfficiencyBand;
  /** The same from what is thought of the point before. */
  weigh(thought: EfficiencyBand, at: WorkingPoint): EfficiencyBand;
  readonly faults: readonly RunFault[];
  readonly fitted: number;
}

/**
 * A pump's efficiency scaled by its measured runs:
 *
 * η(p) = η₀(p) exp(Σ wᵢ ln(ηᵢ/η₀(pᵢ)) / Σ wᵢ), wᵢ = 1/(sᵢ² + g² dᵢ²); variance of ln η: 1/(1/s₀² + Σ wᵢ).
 *
 * η₀ what was thought before, s₀ its spread; ηᵢ, sᵢ run i; dᵢ distance of p from it in the logarithms of flow, fall and lift over
 * fall; g = 0.15. One run is met exactly at its own point, and no run makes the pump less known anywhere.
 * Source: weighted least squares; the distance law is common practice, no source.
 */
export function calibratedBy(
  before: (at: WorkingPoint) => EfficiencyBand,
  runs: readonly MeasuredRun[],
  intakeMost: CubicMetresPerSecond,
): Calibrated {
  const faults: RunFault[] = [];
  const fitted: FittedRun[] = [];
  for (const run of runs) {
    const at = { flow: run.driveFlow, fall: run.fall, head: run.deliveryHead };
    const thought = before(at).likely;
    const shown = runEfficiency(run);
    const fault = faultOf(run, shown, { thought, intakeMost });
    if (fault === null) {
      const variance = ((run.plusMinus ?? USUAL_PLUS_MINUS) / Z975) ** 2;
      fitted.push({ at, over: Math.log(shown / thought), variance });
    } else faults.push(fault);
  }
  if (fitted.length === 0) return { band: before, weigh: (thought) => thought, faults, fitted: 0 };
  const weigh = (thought: EfficiencyBand, at: WorkingPoint) => weighed(thought, at, fitted);
  return { band: (at) => weigh(before(at), at), weigh, faults, fitted: fitted.length };
}

function faultOf(
  { driveFlow, fall, deliveryHead }: MeasuredRun,
  shown: Ratio,
  { thought, intakeMost }: { readonly thought: Ratio; readonly intakeMost: CubicMetresPerSecond },
): RunFault | null {
  if (driveFlow > INTAKE_ROOM * intakeMost) return 'intake';
  if (deliveryHead <= fall) return 'head';
  if (shown <= 0 || shown > BEST_EFFICIENCY) return 'efficiency';
  return thought > 0 ? null : 'model';
}

const headOverFall = ({ head, fall }: WorkingPoint): Ratio => head / fall;

/** Squared distance of two working points in logarithms. */
function apart(a: WorkingPoint, b: WorkingPoint): number {
  const fold = (x: number, y: number) => (x > 0 && y > 0 ? Math.log(x / y) : 0);
  return fold(a.flow, b.flow) ** 2 + fold(a.fall, b.fall) ** 2 + fold(headOverFall(a), headOverFall(b)) ** 2;
}

function weighed(band: EfficiencyBand, at: WorkingPoint, runs: readonly FittedRun[]): EfficiencyBand {
  if (band.likely <= 0) return band;
  let [sum, total] = [0, 0];
  for (const run of runs) {
    const weight = 1 / Math.max(1e-12, run.variance + DOUBT_PER_FOLD ** 2 * apart(at, run.at));
    sum += weight * run.over;
    total += weight;
  }
  const likely = Math.min(1, band.likely * Math.exp(sum / total));
  const left = (reach: number): number => {
    const deviation = Math.max(0, reach) / Z90;
    return deviation === 0 ? 0 : Z90 / Math.sqrt(1 / deviation ** 2 + total);
  };
  const down = band.low > 0 ? left(Math.log(band.likely / band.low)) : left(Z90);
  return {
    low: likely * Math.exp(-down),
    likely,
    high: Math.min(1, likely * Math.exp(left(Math.log(band.high / band.likely)))),
  };
}
