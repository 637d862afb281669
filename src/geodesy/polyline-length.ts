import type { Metres } from '../units/quantity.ts';
import { CompensatedSum } from './compensated-sum.ts';
import { distanceBetween } from './geodesic.ts';
import type { Position } from './position.ts';

/** Ellipsoidal length of a drawn line, whose pieces between vertices are geodesics. */
export function polylineLength(line: readonly Position[]): Metres {
  const sum = new CompensatedSum();
  let before: Position | undefined;
  for (const here of line) {
    if (before) sum.add(distanceBetween(before, here));
    before = here;
  }
  return sum.value;
}
