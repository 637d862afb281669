import { joukowskyHead } from '../../hydraulics/pressure-wave.ts';
import type { Metres } from '../../units/quantity.ts';
import { reachOfTolerance } from '../statistics/compare.ts';
import { TOLERANCES } from '../statistics/tolerances.ts';
import type { SolvedSystem } from './solved-system.ts';

/** How far the 10th and 90th percentile of the drive pipe's wave lie from its likely rise, m; 0 where no wave is known. */
export function waveReach({ wave }: SolvedSystem): Metres {
  if (wave === null) return 0;
  return reachOfTolerance(
    TOLERANCES.wave.value * joukowskyHead({ waveSpeed: wave.speed, velocityChange: wave.velocity }),
  );
}
