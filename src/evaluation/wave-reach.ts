import { joukowskyHead } from '../hydraulics/pressure-wave.ts';
import type { Metres, Ratio } from '../units/quantity.ts';
import { reachOfTolerance } from './compare.ts';
import type { SolvedSystem } from './system.ts';

/**
 * The rise of a pressure wave may be off by this share, 95 % interval: the velocity at which the waste valve shuts is a rule
 * or a model, and plastics differ in stiffness. Common practice, no source.
 */
export const WAVE_TOLERANCE: Ratio = 0.2;

/** How far the 10th and 90th percentile of the drive pipe's wave lie from its likely rise, m; 0 where no wave is known. */
export function waveReach({ wave }: SolvedSystem): Metres {
  if (wave === null) return 0;
  return reachOfTolerance(WAVE_TOLERANCE * joukowskyHead({ waveSpeed: wave.speed, velocityChange: wave.velocity }));
}
