import type { KilogramsPerCubicMetre, Metres, MetresPerSecond, Pascals, Ratio } from '../units/quantity.ts';
import { GRAVITY } from './gravity.ts';

/**
 * Speed of a pressure wave in a thin-walled pipe.
 *
 * a = √(K / ρ) / √(1 + c₁ K D / (E e))
 *
 * K bulk modulus of water, Pa; ρ density, kg/m³; D bore, m; E modulus of the wall, Pa; e wall, m; c₁ restraint of the pipe,
 * 1 with expansion joints and by default, 1 − μ² when held along its length. Range: D/e above about 25; within 5 % below.
 * Source: E. B. Wylie and V. L. Streeter, Fluid Transients, McGraw-Hill, 1978, chapter 1 (from memory).
 */
export function waveSpeed(at: {
  readonly bulkModulus: Pascals;
  readonly density: KilogramsPerCubicMetre;
  readonly bore: Metres;
  readonly wall: Metres;
  readonly modulus: Pascals;
  readonly restraint?: Ratio;
}): MetresPerSecond {
  const give = ((at.restraint ?? 1) * at.bulkModulus * at.bore) / (at.modulus * at.wall);
  return Math.sqrt(at.bulkModulus / at.density / (1 + give));
}

/**
 * Head raised when a velocity is taken away at once.
 *
 * Δh = a Δv / g
 *
 * a wave speed, m/s; Δv velocity taken away, m/s. Range: closing within 2 L / a, frictionless.
 * Source: N. Joukowsky, Über den hydraulischen Stoss in Wasserleitungsröhren, 1898; Wylie and Streeter, chapter 1.
 */
export function joukowskyHead(at: {
  readonly waveSpeed: MetresPerSecond;
  readonly velocityChange: MetresPerSecond;
}): Metres {
  return (at.waveSpeed * at.velocityChange) / GRAVITY;
}
