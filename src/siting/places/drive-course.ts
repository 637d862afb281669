import { SHALLOW_TRENCH } from '../../evaluation/site/line-profile.ts';
import type { Metres } from '../../units/quantity.ts';
import type { OpenGround } from '../fields/open-ground.ts';
import { legBetween } from '../search/leg.ts';

/** A straight drive pipe between two cells, against the ground under it. */
export interface DriveCourse {
  /** Along the slope, m. */
  readonly length: Metres;
  /**
   * How deep it has to be dug in, m: the greatest height of the ground above it, or what the ground climbs on the way down if
   * that is more; 0 where neither is.
   */
  readonly rise: Metres;
  /** The cell at which that is. */
  readonly highest: number;
  /** How far it would hang above the ground at most, m. */
  readonly hollow: Metres;
  /** Metres of it that have to be dug in deeper than a shallow trench. */
  readonly digging: Metres;
}

/** How a straight drive pipe would lie; null where it crosses shut or unknown ground, or does not fall. */
export function driveCourse(ground: OpenGround, from: number, to: number): DriveCourse | null {
  const { columns } = ground;
  const placeOf = (cell: number) => ({ column: cell % columns, row: Math.floor(cell / columns) });
  const [start, end] = [placeOf(from), placeOf(to)];
  const leg = legBetween({ ...ground, known: ground.open }, start, end);
  if (!leg) return null;
  const steps = leg.ground.length - 1;
  const [top, bottom] = [leg.ground[0] as number, leg.ground[steps] as number];
  if (bottom >= top) return null;
  let rise = 0;
  let worst = 0;
  let digging = 0;
  let hollow = 0;
  let lowest = top;
  for (let k = 1; k < steps; k++) {
    const above = (leg.ground[k] as number) - (top + ((bottom - top) * k) / steps);
    hollow = Math.max(hollow, -above);
    lowest = Math.min(lowest, leg.ground[k] as number);
    const deep = Math.max(above, (leg.ground[k] as number) - lowest);
    if (deep > SHALLOW_TRENCH) digging += leg.step;
    if (deep > rise) {
      rise = deep;
      worst = k;
    }
  }
  const column = Math.round(start.column + ((end.column - start.column) * worst) / steps);
  const row = Math.round(start.row + ((end.row - start.row) * worst) / steps);
  return { length: Math.hypot(leg.step * steps, top - bottom), rise, highest: row * columns + column, hollow, digging };
}
