import type { CubicMetres } from '../units/quantity.ts';

/** What comes in and is wanted in one step of time. */
export interface StorageStep {
  readonly inflow: CubicMetres;
  readonly demand: CubicMetres;
}

/** A store after each step, and what it could not hold or could not give. */
export interface StorageBalance {
  readonly stored: readonly CubicMetres[];
  readonly overflow: readonly CubicMetres[];
  readonly shortfall: readonly CubicMetres[];
}

/**
 * A tank stepped through time: stored' = stored + inflow − demand, held between empty and full.
 *
 * What would rise above full runs over; what would sink below empty was not given. Water is conserved:
 * start + Σ inflow = end + Σ (demand − shortfall) + Σ overflow.
 */
export function storageBalance(tank: {
  readonly capacity: CubicMetres;
  readonly start: CubicMetres;
  readonly steps: readonly StorageStep[];
}): StorageBalance {
  const { capacity, start, steps } = tank;
  if (!(capacity >= 0 && start >= 0 && start <= capacity)) {
    throw new RangeError(`found ${start} m³ in a store of ${capacity} m³, expected 0 to its capacity`);
  }
  const stored: CubicMetres[] = [];
  const overflow: CubicMetres[] = [];
  const shortfall: CubicMetres[] = [];
  let level = start;
  for (const { inflow, demand } of steps) {
    const free = level + inflow - demand;
    level = Math.min(Math.max(free, 0), capacity);
    stored.push(level);
    overflow.push(Math.max(free - capacity, 0));
    shortfall.push(Math.max(-free, 0));
  }
  return { stored, overflow, shortfall };
}
