import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';

/** A high or low point between the ends of a route. */
export interface Turning {
  readonly kind: 'summit' | 'sag';
  readonly at: Metres;
  readonly ground: Metres;
  /** Index of its sample along the route's ground line. */
  readonly sample: number;
}

/** A high or low sample of a line and how far the line drops from it (or rises) before it gets past it again. */
export interface TurningSample {
  readonly kind: 'summit' | 'sag';
  readonly sample: number;
}

/**
 * Summits and sags between the ends of a line, those that stand out by at least `prominence` on both sides.
 *
 * One pass: the running extreme becomes a turning as soon as the line has left it by `prominence`. Unknown samples are
 * passed over.
 */
export function turningsOf(line: {
  readonly height: ArrayLike<Metres>;
  readonly known: ArrayLike<number>;
  readonly prominence: Metres;
}): TurningSample[] {
  const found: TurningSample[] = [];
  let high = -1;
  let low = -1;
  let going: 'up' | 'down' | null = null;
  const at = (i: number) => valueAt(line.height, i);
  for (let i = 0; i < line.height.length; i++) {
    if (!line.known[i]) continue;
    if (high < 0 || at(i) > at(high)) high = i;
    if (low < 0 || at(i) < at(low)) low = i;
    if (going !== 'down' && at(high) - at(i) >= line.prominence) {
      if (going === 'up') found.push({ kind: 'summit', sample: high });
      going = 'down';
      low = i;
    } else if (going !== 'up' && at(i) - at(low) >= line.prominence) {
      if (going === 'down') found.push({ kind: 'sag', sample: low });
      going = 'up';
      high = i;
    }
  }
  return found;
}
