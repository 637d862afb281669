import { GRAVITY } from '../../hydraulics/gravity.ts';
import type {
  CubicMetres,
  CubicMetresPerSecond,
  Metres,
  MetresPerSecond,
  Ratio,
  Seconds,
} from '../../units/quantity.ts';
import { acceleration } from './acceleration.ts';
import { type DeliverySteps, deliverySteps } from './delivery-steps.ts';
import { type RamLimits, ramLimits } from './limits.ts';
import { balancedWeight, boreArea, type Closing, type Heads, type RamSystem, terminalVelocity } from './ram-system.ts';
import { backFlow, recoil } from './recoil.ts';
import { type ValveClosing, valveClosings } from './valve-closing.ts';
import { rankineOf } from './yield.ts';

/** Why a ram does not run; words are the report's. */
export type StopReason =
  /** The drag of the water never lifts the waste valve. */
  | 'waste-valve-sticks-open'
  /** The rarefaction never lets the waste valve fall open again. */
  | 'waste-valve-stays-shut'
  /** The pressure wave does not reach the delivery head. */
  | 'delivery-head-too-high'
  /** More comes back through the check valve before it shuts than went out. */
  | 'check-valve-too-slow'
  /** The waste valve takes too long over its stroke to shut at the ratio asked for. */
  | 'waste-valve-too-slow'
  /** The outlet is not above the source's level: the water arrives by itself. */
  | 'no-pump-needed';

/** One beat of a ram as the lumped model sees it. */
export interface Cycle {
  readonly beat: Seconds;
  readonly driveFlow: CubicMetresPerSecond;
  readonly delivery: CubicMetresPerSecond;
  readonly dAubuisson: Ratio;
  readonly rankine: Ratio;
  readonly terminalVelocity: MetresPerSecond;
  readonly shutVelocity: MetresPerSecond;
  /** Highest head at the pump in a beat: h + K_cv u²/2g with u the first velocity through the check valve. */
  readonly peakHead: Metres;
  readonly volumes: BeatVolumes;
  readonly times: BeatTimes;
  readonly steps: DeliverySteps;
}

/** Water of one beat, m³. */
export interface BeatVolumes {
  readonly accelerating: CubicMetres;
  readonly closing: CubicMetres;
  readonly delivered: CubicMetres;
  readonly backThroughCheck: CubicMetres;
  readonly recoil: CubicMetres;
}

/** Duration of each part of a beat, s. */
export interface BeatTimes {
  readonly accelerating: Seconds;
  readonly closing: Seconds;
  readonly delivering: Seconds;
  readonly checkLag: Seconds;
  /** One more wave period when the column still moves forwards as the check valve shuts. */
  readonly waiting: Seconds;
  readonly recoil: Seconds;
}

export interface LumpedRun {
  readonly stops: StopReason | null;
  /** Null when it does not run. */
  readonly cycle: Cycle | null;
  /** Null when the waste valve never shuts or no pump is needed. */
  readonly limits: RamLimits | null;
}

/**
 * One beat of a ram in closed form: acceleration, closing, delivery in wave steps, late check valve, recoil.
 *
 * T = t_r + t_a + t_cl + t_d + t_lag (+ 2L/a); Q = (V_w + V_cl + V_d − V_b − V_r)/T; q = (V_d − V_b)/T.
 * Not validated against a measured ram: leakage, wear, give of the body and snifter air are not in it, so it reads
 * optimistic.
 *
 * Source: structure after Lansford & Dugan 1941 and Krol 1951; closed form derived here, energy checked in the tests.
 */
export function lumpedCycle(ram: RamSystem, heads: Heads, closing: Closing): LumpedRun {
  return lumpedCycles(ram, heads.fall, closing)(heads.deliveryHead);
}

/** The same at one fall for any delivery head: what the head does not bear on is worked out once. */
export function lumpedCycles(ram: RamSystem, fall: Metres, closing: Closing): (deliveryHead: Metres) => LumpedRun {
  const closings = valveClosings(ram, fall, closing);
  return (deliveryHead) => {
    const heads = { fall, deliveryHead };
    if (!(deliveryHead > fall)) return { stops: 'no-pump-needed', cycle: null, limits: null };
    const shut = closings(deliveryHead);
    if (shut === null) return { stops: 'waste-valve-sticks-open', cycle: null, limits: null };
    const weightHead = closing.kind === 'share' ? balancedWeight(ram, shut.startVelocity) : closing.weightHead;
    const limits = ramLimits(ram, { fall, weightHead, shutVelocity: shut.shutVelocity });
    if (deliveryHead < limits.reopening.unlikelyBelow) return { stops: 'waste-valve-stays-shut', cycle: null, limits };
    if (deliveryHead >= limits.highestHead) return { stops: 'delivery-head-too-high', cycle: null, limits };
    const cycle = beatAfter(ram, heads, shut);
    if (!(cycle.delivery > 0)) return { stops: 'check-valve-too-slow', cycle: null, limits };
    return { stops: null, cycle, limits };
  };
}

/** The beat that follows from one closing of the waste valve. */
export function beatAfter(ram: RamSystem, heads: Heads, shut: ValveClosing): Cycle {
  const run = acceleration(ram, heads, shut.startVelocity);
  const steps = deliverySteps(ram, heads, shut.shutVelocity);
  const back = backFlow(ram, heads, steps.residual);
  const returning = recoil(ram, heads.fall, back.recoilVelocity);
  const volumes: BeatVolumes = {
    accelerating: run.volume,
    closing: shut.volume,
    delivered: steps.volume,
    backThroughCheck: back.volume,
    recoil: returning.volume,
  };
  const times: BeatTimes = {
    accelerating: run.time,
    closing: shut.time,
    delivering: steps.time,
    checkLag: ram.checkLag,
    waiting: steps.residual > 0 ? (2 * ram.length) / ram.waveSpeed : 0,
    recoil: returning.time,
  };
  return cycleOf(ram, heads, { volumes, times, steps, shutVelocity: shut.shutVelocity });
}

function cycleOf(
  ram: RamSystem,
  heads: Heads,
  parts: Pick<Cycle, 'volumes' | 'times' | 'steps' | 'shutVelocity'>,
): Cycle {
  const { volumes, times, steps } = parts;
  const beat = times.accelerating + times.closing + times.delivering + times.checkLag + times.waiting + times.recoil;
  const net = volumes.delivered - volumes.backThroughCheck;
  const driveFlow = (volumes.accelerating + volumes.closing + net - volumes.recoil) / beat;
  const delivery = net / beat;
  const dAubuisson = (delivery * heads.deliveryHead) / (driveFlow * heads.fall);
  const checkHead = (ram.checkValveLoss * steps.firstVelocity ** 2) / (2 * GRAVITY);
  // Name by name: a spread costs more than all the formulas, and a plan asks some hundred thousand times.
  return {
    volumes,
    times,
    steps,
    shutVelocity: parts.shutVelocity,
    beat,
    driveFlow,
    delivery,
    dAubuisson,
    rankine: rankineOf(dAubuisson, heads.deliveryHead / heads.fall),
    terminalVelocity: terminalVelocity(ram, heads.fall),
    peakHead: heads.deliveryHead + checkHead,
  };
}

/** Flow that runs away while the waste valve sticks open: A v_∞. */
export function openFlow(ram: RamSystem, fall: Metres): CubicMetresPerSecond {
  return boreArea(ram.bore) * terminalVelocity(ram, fall);
}
