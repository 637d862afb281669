import { z } from 'zod';
import type { Position } from '../../geodesy/position.ts';
import type { AvoidedArea } from '../../siting/reach/site-window.ts';
import { InputError } from './io.ts';

const position = z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90)]).rest(z.number());
const ring = z.array(position).min(4);
const polygon = z.object({ type: z.literal('Polygon'), coordinates: z.array(ring).min(1) });
const several = z.object({ type: z.literal('MultiPolygon'), coordinates: z.array(z.array(ring).min(1)).min(1) });
const point = z.object({ type: z.literal('Point'), coordinates: position });
const properties = z.looseObject({ name: z.string().optional() }).nullish();
const feature = z.object({
  type: z.literal('Feature'),
  geometry: z.union([polygon, several, point]),
  properties,
});
const file = z.union([z.object({ type: z.literal('FeatureCollection'), features: z.array(feature) }), feature]);

const EXPECTED = 'GeoJSON polygons that must not be crossed, and points at which they may be';

/** Areas that must not be crossed: polygons with a name, and points as gates of whichever area they lie in or near. */
export function readAvoidFile(path: string, text: string): AvoidedArea[] {
  const found = file.safeParse(parsed(path, text));
  if (!found.success) throw new InputError(`${path}: found something else, expected ${EXPECTED}`);
  const features = found.data.type === 'FeatureCollection' ? found.data.features : [found.data];
  const gates = features.flatMap(({ geometry }) => (geometry.type === 'Point' ? [at(geometry.coordinates)] : []));
  return features.flatMap(({ geometry, properties: about }, k) => {
    const name = about?.name ?? `area ${k + 1}`;
    if (geometry.type === 'Point') return [];
    const polygons = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
    return polygons.map((rings): AvoidedArea => ({ name, rings: rings.map((r) => r.map(at)), gates }));
  });
}

const at = ([lon, lat]: readonly [number, number, ...number[]]): Position => ({ lon, lat });

function parsed(path: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new InputError(
      `${path}: found no JSON (${error instanceof Error ? error.message : error}), expected ${EXPECTED}`,
    );
  }
}
