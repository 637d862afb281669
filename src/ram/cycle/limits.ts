import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { Metres, MetresPerSecond, Ratio } from '../../units/quantity.ts';
import { highestDeliveryHead } from './delivery-steps.ts';
import { type RamSystem, wasteLoss } from './ram-system.ts';

/** What the pump cannot do, each with its number. */
export interface RamLimits {
  /** h_max: the delivery head at which nothing arrives any more. */
  readonly highestHead: Metres;
  /** Delivery heads between which it depends on the beat whether the waste valve falls open again. */
  readonly reopening: ReopeningBand;
  /** H_stop: running fall below which the waste valve sticks open and pours the water away. */
  readonly leastFall: Metres;
  /** Highest head in the drive pipe when the delivery is blocked. */
  readonly blockedPeak: Metres;
}

export interface ReopeningBand {
  /** Below this delivery head no single rarefaction reaches the waste valve's weight; only echoes may add up to it. */
  readonly unlikelyBelow: Metres;
  /** Above it, it opens in every beat; null with an ideal check valve, where the formula promises it at no head. */
  readonly sureAbove: Metres | null;
}

/**
 * Delivery heads at which the rarefaction after the delivery opens the waste valve.
 *
 * An ideal check valve shuts on a column at v_in, |v_in| ≤ Δv: the head falls to H − a|v_in|/g, at best to 2 H − h, which
 * must be below h_w. A lag lasting k wave periods (begun ones count) lets the head fall to H − (2k ± 1)(h − H):
 * unlikely below H + (H − h_w)/(2k + 1), sure above H + (H − h_w)/(2k − 1).
 *
 * H fall, h delivery head, h_w weight of the waste valve as a head, m. Range: without losses, vapour floor not reached.
 * Source: derived here from the wave equation; the planning rule h ≥ 2 H is common practice, no source.
 */
export function reopeningBand(ram: RamSystem, fall: Metres, weightHead: Metres): ReopeningBand {
  const period = (2 * ram.length) / ram.waveSpeed;
  const periods = Math.ceil(ram.checkLag / period);
  const missing = Math.max(0, fall - weightHead);
  return {
    unlikelyBelow: fall + missing / (2 * periods + 1),
    sureAbove: periods === 0 ? null : fall + missing / (2 * periods - 1),
  };
}

/**
 * H_stop = h_w M/K_wv: the fall at which the terminal velocity just lifts the waste valve.
 *
 * h_w weight of the valve as a head, m; M, K_wv loss coefficients. Source: derived here from v_∞ = v_s.
 */
export function leastFall(ram: RamSystem, weightHead: Metres): Metres {
  const share: Ratio = wasteLoss(ram) / ram.wasteValveLoss;
  return weightHead * share;
}

/**
 * H + a v/g: head in the drive pipe when the waste valve shuts on water at `velocity` and the delivery is blocked.
 *
 * a wave speed, v velocity, m/s; H fall, m. Range: closing within 2L/a.
 * Source: Joukowsky 1898, as in Wylie & Streeter, Fluid Transients in Systems, Prentice Hall, 1993 (from memory).
 */
export function blockedPeak(ram: RamSystem, fall: Metres, velocity: MetresPerSecond): Metres {
  return fall + (ram.waveSpeed * velocity) / GRAVITY;
}

export function ramLimits(
  ram: RamSystem,
  given: { readonly fall: Metres; readonly weightHead: Metres; readonly shutVelocity: MetresPerSecond },
): RamLimits {
  return {
    highestHead: highestDeliveryHead(ram, given.fall, given.shutVelocity),
    reopening: reopeningBand(ram, given.fall, given.weightHead),
    leastFall: leastFall(ram, given.weightHead),
    blockedPeak: blockedPeak(ram, given.fall, given.shutVelocity),
  };
}
