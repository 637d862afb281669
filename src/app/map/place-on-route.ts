import { lineString, nearestPointOnLine } from '@turf/turf';
import type { Position } from '../../geodesy/position.ts';

/** The place on a drawn line nearest to a position, and the place a vertex put there would take among its vertices. */
export function placeOnRoute(
  vertices: readonly Position[],
  { lon, lat }: Position,
): { readonly index: number; readonly position: Position } | null {
  if (vertices.length < 2) return null;
  const line = lineString(vertices.map((vertex) => [vertex.lon, vertex.lat]));
  const nearest = nearestPointOnLine(line, [lon, lat]);
  const [foundLon = lon, foundLat = lat] = nearest.geometry.coordinates;
  return { index: nearest.properties.segmentIndex + 1, position: { lon: foundLon, lat: foundLat } };
}
