import type { CubicMetresPerSecond, Metres, MetresPerSecond, Ratio } from '../../units/quantity.ts';

/**
 * Velocity at which the waste valve shuts over the mean velocity in the drive pipe. Between rest and shutting the column
 * speeds up almost evenly, so its mean is about half of what it reaches.
 */
const SHUT_OVER_MEAN: Ratio = 2;

/** Velocity in the drive pipe when the waste valve shuts, from the mean flow a pump takes: v = 2 · 4Q / (π D²). */
export function shutVelocity(at: { readonly driveFlow: CubicMetresPerSecond; readonly bore: Metres }): MetresPerSecond {
  return (SHUT_OVER_MEAN * 4 * at.driveFlow) / (Math.PI * at.bore ** 2);
}
