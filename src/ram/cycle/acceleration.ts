import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { CubicMetres, MetresPerSecond, Seconds } from '../../units/quantity.ts';
import { boreArea, type Heads, type RamSystem, wasteLoss } from './ram-system.ts';

export interface Acceleration {
  readonly time: Seconds;
  /** Water that ran out of the waste valve meanwhile. */
  readonly volume: CubicMetres;
}

/** Below this value of M v²/(2gH) the series is closer to the truth than the logarithm's difference. */
const smallShare = 1e-6;

/**
 * Time and water that bring the column from rest to `velocity` with the waste valve open.
 *
 * (L/g) dv/dt = H − M v²/2g, so with s = M v²/(2 g H) (the square of the share of terminal velocity):
 * t = (L v / g H) · artanh(√s)/√s, V = (A L v² / 2 g H) · −ln(1 − s)/s.
 * Written so that both stay exact when the losses M go to nothing.
 *
 * v velocity, m/s; L, A length and cross section of the drive pipe, m, m²; H fall, m; M loss coefficient.
 * Range: s < 1, a rigid column. Infinite at s ≥ 1: the velocity is never reached.
 * Source: Lansford & Dugan, An analytical and experimental study of the hydraulic ram, University of Illinois, 1941
 * (structure of the cycle); closed form derived here.
 */
export function acceleration(ram: RamSystem, heads: Heads, velocity: MetresPerSecond): Acceleration {
  const share = (wasteLoss(ram) * velocity * velocity) / (2 * GRAVITY * heads.fall);
  if (share >= 1) return { time: Number.POSITIVE_INFINITY, volume: Number.POSITIVE_INFINITY };
  const root = Math.sqrt(share);
  const timeFactor = share < smallShare ? 1 + share / 3 : Math.atanh(root) / root;
  const volumeFactor = share < smallShare ? 1 + share / 2 : -Math.log1p(-share) / share;
  const free = (ram.length * velocity) / (GRAVITY * heads.fall);
  return { time: free * timeFactor, volume: ((boreArea(ram.bore) * free * velocity) / 2) * volumeFactor };
}
