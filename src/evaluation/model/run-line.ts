import type { CubicMetresPerSecond, Metres, Ratio } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { HighPlace } from './system-model.ts';

/** A line in one state: its ground, and what its losses are against the likely ones. */
export interface LineState {
  readonly ground: Float64Array;
  readonly lossFactor: Ratio;
}

/** Losses of a line in one state over its likely ones: log-normal. */
export const lossFactor = (doubt: Ratio, deviations: Ratio): Ratio =>
  deviations === 0 ? 1 : Math.exp(doubt * deviations);

/** The least flow that every high place passes without its pressure falling below the air's, given the level behind it. */
export function flowPast(
  level: Metres,
  places: readonly HighPlace[],
  { ground, lossFactor: k }: LineState,
): CubicMetresPerSecond {
  let most = Number.MAX_VALUE;
  for (const place of places) {
    most = Math.min(most, place.loss.flowFor(Math.max(0, level - valueAt(ground, place.node)) / k));
  }
  return most;
}

/** Least height of the water line above the high places at a flow; 0 where there are none. */
export function clearance(
  level: Metres,
  flow: CubicMetresPerSecond,
  places: readonly HighPlace[],
  { ground, lossFactor: k }: LineState,
): Metres {
  if (places.length === 0) return 0;
  let least = Number.MAX_VALUE;
  for (const place of places) {
    least = Math.min(least, level - k * place.loss.headLoss(flow) - valueAt(ground, place.node));
  }
  return least;
}
