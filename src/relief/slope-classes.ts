import type { Ratio } from '../units/quantity.ts';

/**
 * Slopes that part the classes of slope colours, rise over run: below the first, between two, and from the last on.
 *
 * 0.05, 0.15, 0.30, 0.60. Source: four of the class limits of FAO, Guidelines for soil description, 4th edition, 2006, table 7
 * (from memory). That wheeled machines reach about 30 % and tracked ones about 60 % is common practice, no source.
 */
export const SLOPE_EDGES: readonly Ratio[] = [0.05, 0.15, 0.3, 0.6];

/** Which class a slope belongs to, 0 for the gentlest; a slope on an edge belongs to the steeper side. */
export function slopeClass(slope: Ratio): number {
  let at = 0;
  while (at < SLOPE_EDGES.length && slope >= (SLOPE_EDGES[at] ?? 0)) at += 1;
  return at;
}
