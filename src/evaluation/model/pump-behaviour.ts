import { planningBand } from '../../handbook/ram-efficiency.ts';
import type { CurvePoint, PumpSheet } from '../../plan/model/plan.ts';
import type { StopReason } from '../../ram/cycle/lumped-cycle.ts';
import type { Heads } from '../../ram/cycle/ram-system.ts';
import type { CubicMetresPerSecond, Metres, MetresPerSecond, Ratio, Seconds } from '../../units/quantity.ts';
import { type Band, bandAround, bandAt } from '../site/efficiency-band.ts';
import { calibratedBy, type RunFault, runsOf, type WorkingPoint } from './measured-runs.ts';

/** How a pump answers: what it can take, and how much of the water's work reaches the delivery. */
export interface PumpBehaviour {
  readonly driveBore: Metres | null;
  readonly intakeLeast: CubicMetresPerSecond;
  readonly intakeMost: CubicMetresPerSecond;
  readonly intakeSet: CubicMetresPerSecond | null;
  /** D'Aubuisson efficiency at u standard deviations from the likely one. */
  efficiency(u: number, at: WorkingPoint): Ratio;
  /** The same at one flow and fall for any delivery head: many lines ask it of one state. */
  efficiencyFor(u: number, at: Omit<WorkingPoint, 'head'>): (head: Metres) => Ratio;
  readonly leastDeliveryHead: Metres | null;
  /** What the model of a ram adds; null for a sheet. */
  readonly modelled: ModelledRam | null;
  /** Of its measured runs: how many fit, and why others do not. */
  readonly runs: { readonly fitted: number; readonly faults: readonly RunFault[] };
}

/** What the model says of a ram described by its parts, at its design heads. */
export interface ModelledRam {
  /** Why it does not run; null when it does. */
  readonly stops: StopReason | null;
  readonly beatsPerMinute: number | null;
  readonly shutVelocity: MetresPerSecond | null;
  /** Efficiency of the model, which is not validated against a measured ram and reads optimistic. */
  readonly efficiency: Ratio | null;
  /** Delivery head that its pressure wave does not reach; null where its waste valve never shuts. */
  readonly highestHead: Metres | null;
  /** Ripple of the pressure in a beat over the delivery head with its air chamber; null where it does not run. */
  readonly ripple: Ratio | null;
  /** Running fall below which its waste valve sticks open. */
  readonly leastFall: Metres;
  /** Delivery head below which nothing lets its waste valve fall open again. */
  readonly leastHead: Metres;
  /** The same ram with the same setting at other heads: why it does not run, and its beats a minute. */
  at(heads: Heads): { readonly stops: StopReason | null; readonly beatsPerMinute: number | null };
  /** The longest that its check valve may take to shut for it to beat at given heads; null where that is not what stops it. */
  longestLag(heads: Heads): Seconds | null;
  /** The length of drive pipe at which it beats so often a minute at its design heads; null where none is found. */
  lengthFor(beatsPerMinute: number): Metres | null;
}

/** A sheet's efficiency: its curve before its band, and the planning band for none. */
function bandOf({ efficiency, efficiencyCurve }: PumpSheet): (at: WorkingPoint) => Band {
  if (efficiencyCurve.length > 0) return (at) => bandAround(curveAt(efficiencyCurve, headOverFall(at)));
  return efficiency === null ? (at) => planningBand(headOverFall(at)) : () => efficiency;
}

const headOverFall = ({ head, fall }: WorkingPoint): Ratio => (fall > 0 ? head / fall : 0);

/** Efficiency of a pump of which nothing is known: it falls as the lift grows against the fall. */
const plannedEfficiency: PumpBehaviour['efficiency'] = (u, at) => bandAt(planningBand(headOverFall(at)))(u);

/** A curve straight between its points and level beyond its ends. */
function curveAt(curve: readonly CurvePoint[], headOverFall: Ratio): Ratio {
  const next = curve.findIndex((p) => p.headOverFall >= headOverFall);
  const [a, b] = [curve[next - 1], curve[next]];
  if (!b) return curve.at(-1)?.efficiency ?? 0;
  if (!a) return b.efficiency;
  const share = (headOverFall - a.headOverFall) / (b.headOverFall - a.headOverFall);
  return a.efficiency + share * (b.efficiency - a.efficiency);
}

const always = (efficiency: Ratio) => () => efficiency;

/** A pump as its sheet describes it. */
export function sheetBehaviour(sheet: PumpSheet): PumpBehaviour {
  const { band, faults, fitted } = calibratedBy(bandOf(sheet), runsOf(sheet), sheet.intakeMost);
  return {
    ...sheet,
    efficiency: (u, at) => bandAt(band(at))(u),
    efficiencyFor: (u, { flow, fall }) => {
      const own = sheet.efficiencyCurve.length === 0 && fitted === 0 ? sheet.efficiency : null;
      // Of one band for every head, one number serves all.
      if (own !== null) return always(bandAt(own)(u));
      return (head) => bandAt(band({ flow, fall, head }))(u);
    },
    modelled: null,
    runs: { faults, fitted },
  };
}

/** No pump chosen yet: it takes whatever the source gives, at the planning band's efficiency. */
export function anyPump(): PumpBehaviour {
  return {
    driveBore: null,
    intakeLeast: 0,
    intakeMost: Number.MAX_VALUE,
    intakeSet: null,
    efficiency: plannedEfficiency,
    efficiencyFor:
      (u, { flow, fall }) =>
      (head) =>
        plannedEfficiency(u, { flow, fall, head }),
    leastDeliveryHead: null,
    modelled: null,
    runs: { fitted: 0, faults: [] },
  };
}

/**
 * Equal pumps side by side as one: each on a drive pipe of its own from the same water, all into one delivery line. Together
 * they take what one takes times their number; each works as one does at its share of the flow.
 */
export function sideBySide(one: PumpBehaviour, count: number): PumpBehaviour {
  if (count === 1) return one;
  const { intakeLeast, intakeMost, intakeSet } = one;
  return {
    ...one,
    intakeLeast: count * intakeLeast,
    intakeMost: Math.min(Number.MAX_VALUE, count * intakeMost),
    intakeSet: intakeSet === null ? null : count * intakeSet,
    efficiency: (u, at) => one.efficiency(u, { ...at, flow: at.flow / count }),
    efficiencyFor: (u, { flow, fall }) => one.efficiencyFor(u, { flow: flow / count, fall }),
  };
}
