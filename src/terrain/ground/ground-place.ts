import type { Position } from '../../geodesy/position.ts';
import { DEGREE } from '../../geodesy/wgs84.ts';
import type { Metres } from '../../units/quantity.ts';
import { valueAt } from '../../units/value-at.ts';
import type { GroundLine } from '../grid/ground.ts';

/** The place at a distance along a ground line; null for a line without samples. */
export function positionAlong(line: GroundLine, at: Metres): Position | null {
  if (line.at.length === 0) return null;
  const after = firstAtOrBeyond(line.at, at);
  const before = Math.max(0, after - 1);
  const from = valueAt(line.at, before);
  const span = valueAt(line.at, after) - from;
  const share = span > 0 ? Math.min(1, Math.max(0, (at - from) / span)) : 1;
  const between = (values: Float64Array) =>
    valueAt(values, before) + (valueAt(values, after) - valueAt(values, before)) * share;
  return { lon: between(line.lon), lat: between(line.lat) };
}

/** Distance along the line of the sample nearest to a place; null for a line without samples. */
export function nearestAlong(line: GroundLine, { lon, lat }: Position): Metres | null {
  const narrowing = Math.cos(lat * DEGREE);
  let best: Metres | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < line.at.length; i += 1) {
    const off = Math.hypot((valueAt(line.lon, i) - lon) * narrowing, valueAt(line.lat, i) - lat);
    if (off >= least) continue;
    least = off;
    best = valueAt(line.at, i);
  }
  return best;
}

function firstAtOrBeyond(values: Float64Array, at: number): number {
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (valueAt(values, middle) < at) low = middle + 1;
    else high = middle;
  }
  return low;
}
