import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { CubicMetres, Metres, MetresPerSecond, Ratio } from '../../units/quantity.ts';
import type { RamSystem } from './ram-system.ts';

/** What is wrong at the pump itself, beside the ram's own parameters; all 0 for a sound ram. */
export interface RamFaults {
  /** What stays open of the waste valve when it is shut, as a share of it wide open. */
  readonly seatLeak: Ratio;
  /** A leak of the body or the snifter to the air, on the same scale; taken at the waste valve's level. */
  readonly bodyLeak: Ratio;
  /** What stays open of the check valve when it is shut, as a share of it wide open. */
  readonly checkLeak: Ratio;
  /** How high the water behind the waste valve stands over its outlet. */
  readonly tailWater: Metres;
  /** Air caught under the valves, as it is at the pressure of the fall at rest. */
  readonly airPocket: CubicMetres;
}

export const soundRam: RamFaults = { seatLeak: 0, bodyLeak: 0, checkLeak: 0, tailWater: 0, airPocket: 0 };

/**
 * Velocity in the drive pipe that feeds a leak under a head: w = y √(2 g h/K).
 *
 * y leak as a share of the valve wide open, h head on it, m, K loss coefficient of the open valve on v²/2g in the drive
 * pipe. Source: orifice law, derived here.
 */
export function leakVelocity(leak: Ratio, head: Metres, loss: Ratio): MetresPerSecond {
  return leak * Math.sqrt((2 * GRAVITY * Math.max(0, head)) / loss);
}

/** Share of the bound at which rams stop: between two simulations, which put it at 0.77 to 0.94 for an outlet. */
const leakEdge: Ratio = 0.85;
/** How much of a leaking check valve counts, so that it stops a ram at the bound itself: the simulations say 0.9 to 1.25. */
export const checkLeakCounts: Ratio = 0.85;

/**
 * The velocity w that leaks away under the delivery head at which the waste valve no longer opens again:
 * w = e (Δv + g (h − H) t_lag/L), Δv = g (h − H)/a: the column cannot turn round.
 *
 * h − H lift over the fall, m; a wave speed, m/s; t_lag lag of the check valve, s; L length, m; e = 0.85.
 * Source: derived here; e from the project's own simulation and an independent one, which differ by a fifth.
 */
export function stoppingLeak(ram: RamSystem, lift: Metres): MetresPerSecond {
  const step = (GRAVITY * lift) / ram.waveSpeed;
  return leakEdge * (step + (GRAVITY * lift * ram.checkLag) / ram.length);
}
