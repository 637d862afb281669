import { z } from 'zod';
import type { Position } from '../../geodesy/position.ts';
import type { GroundLine } from '../../terrain/grid/ground.ts';
import { valueAt } from '../../units/value-at.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { readFlags } from '../input/flags.ts';
import { type Command, InputError } from '../input/io.ts';
import {
  TERRAIN_SHAPES,
  TERRAIN_USAGE,
  terrainLines,
  terrainOf,
  terrainText,
  warnOfGuesses,
  withTerrain,
} from '../input/terrain-files.ts';

/** Position of RFC 7946: longitude and latitude in degrees; a height, if there is one, is left aside. */
const position = z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90)]).rest(z.number());

const lineString = z.object({ type: z.literal('LineString'), coordinates: z.array(position).min(2) });

const feature = z.object({ type: z.literal('Feature'), geometry: lineString });

const collection = z.object({ type: z.literal('FeatureCollection'), features: z.tuple([feature]) });

const route = z.union([lineString, feature, collection]);

const EXPECTED =
  'a GeoJSON LineString feature with at least two positions of longitude (−180 to 180) and latitude (−90 to 90)';

/** The line of a GeoJSON file: a LineString, a feature of one, or a collection of just one such feature. */
function readRouteFile(path: string, text: string): Position[] {
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

const USAGE = `rillwright profile ROUTE.geojson --dem FILE… [--json | --csv]

The ground along a drawn line: samples at half a cell or finer, horizontal length on the ellipsoid, length along the slope.

${TERRAIN_USAGE}  --json         the answer as JSON, ground_m null where the DEM has no height
  --csv          the samples as CSV, ground_m empty where the DEM has no height
`;

const SHAPES = { ...TERRAIN_SHAPES, '--json': 'switch', '--csv': 'switch' } as const;

export const command: Command = {
  name: 'profile',
  summary: 'the ground along a route',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const [path, stray] = flags.operands;
    if (path === undefined) throw new InputError('found no route, expected a GeoJSON file with a LineString');
    if (stray !== undefined) throw new InputError(`found ${stray}, expected one route file`);
    if (flags.has('--json') && flags.has('--csv')) throw new InputError('found --json and --csv, expected one of them');
    const line = readRouteFile(path, await io.readText(path));
    const { value: ground, terrain } = await withTerrain(flags, io, { use: (terrain) => terrain.groundAlong(line) });
    const notes = ground.notes ?? [];
    if (flags.has('--csv')) io.err(terrainLines(terrain, 'metric', notes));
    else warnOfGuesses(terrain, 'metric', io);
    if (flags.has('--json')) io.out(`${JSON.stringify({ ...asJson(ground), terrain: terrainOf(terrain, notes) })}\n`);
    else io.out(flags.has('--csv') ? asCsv(ground) : asText(ground) + terrainText(terrain, 'metric', notes));
  },
};

interface Sample {
  readonly at_m: number;
  readonly lon: number;
  readonly lat: number;
  readonly ground_m: number | null;
}

function samplesOf(line: GroundLine): Sample[] {
  return Array.from(line.at, (at_m, i) => ({
    at_m,
    lon: valueAt(line.lon, i),
    lat: valueAt(line.lat, i),
    ground_m: line.known[i] ? (line.ground[i] ?? null) : null,
  }));
}

function asJson(line: GroundLine): Readonly<Record<string, unknown>> {
  return { horizontal_m: line.horizontal, slope_m: line.slope, samples: samplesOf(line) };
}

function asCsv(line: GroundLine): string {
  const rows = samplesOf(line).map((s) => `${s.at_m},${s.lon},${s.lat},${s.ground_m ?? ''}\n`);
  return `at_m,lon,lat,ground_m\n${rows.join('')}`;
}

function asText(line: GroundLine): string {
  const both = (value: number, kind: 'length' | 'height') =>
    `${writeQuantity(value, kind, 'metric')} (${writeQuantity(value, kind, 'us')})`;
  const known = samplesOf(line).flatMap((s) => s.ground_m ?? []);
  const [first, last] = [known[0], known.at(-1)];
  const heights =
    first === undefined || last === undefined
      ? [['ground', 'the DEM has no height on this line']]
      : [
          ['first height', both(first, 'height')],
          ['last height', both(last, 'height')],
          [
            'lowest',
            both(
              known.reduce((a, b) => Math.min(a, b)),
              'height',
            ),
          ],
          [
            'highest',
            both(
              known.reduce((a, b) => Math.max(a, b)),
              'height',
            ),
          ],
        ];
  const rows = [
    ['length, level', both(line.horizontal, 'length')],
    ['length, slope', both(line.slope, 'length')],
    ...heights,
    ['samples', String(line.at.length)],
    ['without height', `${line.at.length - known.length} samples in ${line.voids.length} stretches`],
  ];
  return rows.map(([name = '', value = '']) => `${name.padEnd(16)} ${value}\n`).join('');
}
