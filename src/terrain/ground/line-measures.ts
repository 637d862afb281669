import { CompensatedSum } from '../../geodesy/compensated-sum.ts';
import type { Metres } from '../../units/quantity.ts';
import type { VoidSpan } from '../grid/ground.ts';

/** Stretches without a height, as first and last sample. */
export function voidSpans(known: Uint8Array): VoidSpan[] {
  const spans: VoidSpan[] = [];
  let first = -1;
  for (let i = 0; i <= known.length; i++) {
    const missing = i < known.length && known[i] === 0;
    if (missing && first < 0) first = i;
    if (!missing && first >= 0) {
      spans.push({ first, last: i - 1 });
      first = -1;
    }
  }
  return spans;
}

/**
 * Length along the ground: Σ √(Δat² + Δz²) between neighbouring known samples.
 *
 * A void counts as straight between the heights on either side, and as level before the first height and after the last.
 */
export function groundLength(at: Float64Array, ground: Float64Array, known: Uint8Array): Metres {
  const sum = new CompensatedSum();
  let before = -1;
  for (let i = 0; i < at.length; i++) {
    if (known[i] === 0) continue;
    if (before < 0) sum.add((at[i] as number) - (at[0] as number));
    else
      sum.add(
        Math.hypot((at[i] as number) - (at[before] as number), (ground[i] as number) - (ground[before] as number)),
      );
    before = i;
  }
  if (at.length > 0) sum.add((at[at.length - 1] as number) - (at[Math.max(before, 0)] as number));
  return sum.value;
}
