import { GRAVITY } from '../../hydraulics/gravity.ts';
import type { CubicMetres, Metres, MetresPerSecond, Seconds } from '../../units/quantity.ts';
import { boreArea, type Heads, type RamSystem, wasteLoss } from './ram-system.ts';

export interface BackFlow {
  /** Water that comes back through the check valve before it shuts. */
  readonly volume: CubicMetres;
  /** Velocity towards the inlet with which the column starts its recoil. */
  readonly recoilVelocity: MetresPerSecond;
}

/**
 * What a check valve that shuts late lets back, and the recoil that follows.
 *
 * In the first wave period the water at the valve moves back at Δv − v_in, Δv = g(h − H)/a, in each further one 2Δv faster:
 * V = A Σ u t. The delivery's head does the work ρ g (h − H) V on the column: v_r² = v_in² + 2 g (h − H) V/(A L).
 *
 * h, H delivery head and fall, m; t lag within the period, s; L, A length and cross section of the drive pipe, m, m²;
 * v_in residual velocity, m/s. Range: |v_in| ≤ Δv; without losses.
 * Source: derived here from the wave equation and the energy of the column.
 */
export function backFlow(ram: RamSystem, heads: Heads, residual: MetresPerSecond): BackFlow {
  const drive = GRAVITY * (heads.deliveryHead - heads.fall);
  const step = drive / ram.waveSpeed;
  const period = (2 * ram.length) / ram.waveSpeed;
  let left = ram.checkLag;
  let u = step - residual;
  let path = 0;
  while (left > 0) {
    path += u * Math.min(left, period);
    left -= period;
    u += 2 * step;
  }
  const energy = residual * residual + (2 * drive * path) / ram.length;
  return { volume: boreArea(ram.bore) * path, recoilVelocity: Math.sqrt(energy) };
}

export interface Recoil {
  readonly time: Seconds;
  /** Water that goes back into the standpipe. */
  readonly volume: CubicMetres;
}

/** Below this value of M v²/(2gH) the series is closer to the truth than the closed form's difference. */
const smallShare = 1e-6;

/**
 * How long the column runs back after the waste valve has fallen open, and how much water it takes with it.
 *
 * With s = M v²/(2 g H): t = (L v/g H) · arctan(√s)/√s, V = (A L v²/2 g H) · ln(1 + s)/s.
 *
 * v velocity towards the inlet, m/s; L, A length and cross section of the drive pipe, m, m²; H fall, m; M loss coefficient
 * with the waste valve open. Source: derived here from (L/g) dv/dt = −(H + M v²/2g).
 */
export function recoil(ram: RamSystem, fall: Metres, velocity: MetresPerSecond): Recoil {
  const share = (wasteLoss(ram) * velocity * velocity) / (2 * GRAVITY * fall);
  const root = Math.sqrt(share);
  const timeFactor = share < smallShare ? 1 - share / 3 : Math.atan(root) / root;
  const volumeFactor = share < smallShare ? 1 - share / 2 : Math.log1p(share) / share;
  const free = (ram.length * velocity) / (GRAVITY * fall);
  return { time: free * timeFactor, volume: ((boreArea(ram.bore) * free * velocity) / 2) * volumeFactor };
}
