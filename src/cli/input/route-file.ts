import { z } from 'zod';
import type { Position } from '../../geodesy/position.ts';
import { InputError } from './io.ts';

/** Position of RFC 7946: longitude and latitude in degrees; a height, if there is one, is left aside. */
const position = z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90)]).rest(z.number());

const lineString = z.object({ type: z.literal('LineString'), coordinates: z.array(position).min(2) });

const feature = z.object({ type: z.literal('Feature'), geometry: lineString });

const collection = z.object({ type: z.literal('FeatureCollection'), features: z.tuple([feature]) });

const route = z.union([lineString, feature, collection]);

const EXPECTED =
  'a GeoJSON LineString feature with at least two positions of longitude (−180 to 180) and latitude (−90 to 90)';

/** The line of a GeoJSON file: a LineString, a feature of one, or a collection of just one such feature. */
export function readRouteFile(path: string, text: string): Position[] {
  const found = route.safeParse(parsed(path, text));
  if (!found.success) throw new InputError(`${path}: found something else, expected ${EXPECTED}`);
  return lineOf(found.data).map(([lon, lat]) => ({ lon, lat }));
}

function parsed(path: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new InputError(
      `${path}: found no JSON (${error instanceof Error ? error.message : error}), expected ${EXPECTED}`,
    );
  }
}

function lineOf(found: z.infer<typeof route>): z.infer<typeof lineString>['coordinates'] {
  if (found.type === 'LineString') return found.coordinates;
  if (found.type === 'Feature') return found.geometry.coordinates;
  return found.features[0].geometry.coordinates;
}
