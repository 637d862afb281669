import type { Metres, Ratio } from '../../units/quantity.ts';
import { type Spread, within95 } from '../statistics/compare.ts';
import { Z975 } from '../statistics/normal.ts';
import { TOLERANCES } from '../statistics/tolerances.ts';

/** A pipe winds a little more or less on the ground than the line drawn for it, and its ends are set by eye. */
const WINDING: Ratio = TOLERANCES.winding.value;
const ENDS: Metres = TOLERANCES.ends.value;

/** The length of a line as it will be laid, m, where `drawn` is the length along the ground of the line as drawn. */
export function laidLength(drawn: Metres): Spread {
  const reach = Math.hypot(WINDING * drawn, ENDS);
  return within95({ low: Math.max(drawn / 2, drawn - reach), likely: drawn, high: drawn + reach });
}

/** Standard deviation of the logarithm of a laid length. */
export function lengthDoubt(drawn: Metres): Ratio {
  return drawn > 0 ? Math.hypot(WINDING, Math.min(ENDS / drawn, 1 / 2)) / Z975 : 0;
}
