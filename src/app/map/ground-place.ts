import type { Position } from '../../geodesy/position.ts';
import { DEGREE } from '../../geodesy/wgs84.ts';
import type { GroundLine } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';

/** The place at a distance along a ground line; null for a line without samples. */
export function positionAlong(line: GroundLine, at: Metres): Position | null {
  const after = firstAtOrBeyond(line.at, at);
  const before = Math.max(0, after - 1);
  const [lon, lat] = [line.lon[after], line.lat[after]];
  if (lon === undefined || lat === undefined) return null;
  const from = line.at[before] ?? 0;
  const span = (line.at[after] ?? 0) - from;
  const share = span > 0 ? Math.min(1, Math.max(0, (at - from) / span)) : 1;
  const startLon = line.lon[before] ?? lon;
  const startLat = line.lat[before] ?? lat;
  return { lon: startLon + (lon - startLon) * share, lat: startLat + (lat - startLat) * share };
}

/** Distance along the line of the sample nearest to a place; null for a line without samples. */
export function nearestAlong(line: GroundLine, { lon, lat }: Position): Metres | null {
  const narrowing = Math.cos(lat * DEGREE);
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at < line.at.length; at += 1) {
    const off = Math.hypot(((line.lon[at] ?? 0) - lon) * narrowing, (line.lat[at] ?? 0) - lat);
    if (off >= least) continue;
    least = off;
    best = at;
  }
  return line.at[best] ?? null;
}

function firstAtOrBeyond(values: Float64Array, at: number): number {
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((values[middle] ?? 0) < at) low = middle + 1;
    else high = middle;
  }
  return low;
}
