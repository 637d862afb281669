import { SHALLOW_TRENCH } from '../../evaluation/site/line-profile.ts';
import type { Metres } from '../../units/quantity.ts';
import type { OpenGround } from '../fields/open-ground.ts';
import { legBetween } from '../search/leg.ts';

/** A straight drive pipe between two cells, against the ground under it. */
export interface DriveCourse {
  /** Along the slope, m. */
  readonly length: Metres;
  /** Greatest height of the ground above it, m; 0 where it stays under. */
  readonly rise: Metres;
  /** The cell at which that is. */
  readonly highest: number;
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
  for (let k = 1; k < steps; k++) {
    const above = (leg.ground[k] as number) - (top + ((bottom - top) * k) / steps);
    if (above > SHALLOW_TRENCH) digging += leg.step;
    if (above > rise) {
      rise = above;
      worst = k;
    }
  }
  const column = Math.round(start.column + ((end.column - start.column) * worst) / steps);
  const row = Math.round(start.row + ((end.row - start.row) * worst) / steps);
  return { length: Math.hypot(leg.step * steps, top - bottom), rise, highest: row * columns + column, digging };
}
